package engine

import (
	"strings"
	"syscall"
	"testing"
	"time"
)

// A worker that stops answering is killed, and the last place it told of is
// the fault's.
func TestFrozenWorker(t *testing.T) {
	w := Start(Limits{Time: time.Second})
	defer w.Close()
	<-w.ready
	w.out = &trap{ReadCloser: w.out, word: `{"At":7}`, spring: func() { w.cmd.Process.Signal(syscall.SIGSTOP) }}
	out, err := w.Run(t.Context(), program("", cell{"", "__at = 7\nfor { }"}))
	if err != nil {
		t.Fatal(err)
	}
	if len(out.Faults) != 1 || out.Faults[0].Range.Start.Line != 7 || !strings.Contains(out.Faults[0].Message, "did not end") {
		t.Errorf("got %+v, want one fault of time at line 7", out.Faults)
	}
}
