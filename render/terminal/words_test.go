package terminal

import "testing"

// What a record says cannot speak to the terminal.
func TestInert(t *testing.T) {
	if got := Inert("nina\x1b[2J\u202e\r\nü"); got != "nina\ufffd[2J\ufffd\ufffd\nü" {
		t.Errorf("inert: got %q", got)
	}
}
