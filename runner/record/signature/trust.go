package signature

import (
	"bytes"
	"errors"
	"fmt"
	"path"
	"slices"
	"strings"
	"time"

	"golang.org/x/crypto/ssh"
)

// A Trust says whose key is whose: an allowed_signers file, as ssh-keygen(1)
// describes it.
type Trust struct {
	lines []allowed
}

// allowed is one line of the file.
type allowed struct {
	number        int
	principals    []string // patterns
	namespaces    []string // patterns; nil for all
	after, before time.Time
	key           []byte
}

// ParseTrust reads the text of an allowed_signers file. file names it in errors.
func ParseTrust(file string, text []byte) (*Trust, error) {
	t := &Trust{}
	for i, line := range strings.Split(string(text), "\n") {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		a, err := parseAllowed(line)
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %w", file, i+1, err)
		}
		a.number = i + 1
		t.lines = append(t.lines, a)
	}
	return t, nil
}

func parseAllowed(line string) (allowed, error) {
	var a allowed
	principals, rest, err := word(line)
	if err != nil {
		return a, err
	}
	a.principals = strings.Split(principals, ",")
	options, keyText, err := word(rest)
	if err != nil {
		return a, err
	}
	if !strings.Contains(options, "=") && !strings.EqualFold(options, "cert-authority") {
		options, keyText = "", rest // the type of the key
	}
	if err := a.options(options); err != nil {
		return a, err
	}
	key, _, _, more, err := ssh.ParseAuthorizedKey([]byte(keyText))
	if err != nil || len(bytes.TrimSpace(more)) > 0 {
		return a, fmt.Errorf("got no public key after %q, want a line such as: name ssh-ed25519 AAAA…", principals)
	}
	if !strings.HasPrefix(keyText, key.Type()+" ") {
		return a, fmt.Errorf("got %.40q where the type of the key belongs, want one word of options, separated by commas without a space", keyText)
	}
	a.key = key.Marshal()
	return a, known(key)
}

// word takes the first word of a line; quotes keep spaces in it.
func word(line string) (first, rest string, err error) {
	quoted := false
	for i, c := range line {
		switch {
		case c == '"':
			quoted = !quoted
		case !quoted && (c == ' ' || c == '\t'):
			return strings.ReplaceAll(line[:i], `"`, ""), strings.TrimLeft(line[i:], " \t"), nil
		}
	}
	if quoted {
		return "", "", errors.New("got an open quote, want a closing one")
	}
	return "", "", fmt.Errorf("got %.40q alone, want a name and a public key: name ssh-ed25519 AAAA…", line)
}

// options reads options such as namespaces=a,b,valid-before=20270101Z. Their
// quotes are gone, so that a comma may belong to a list of namespaces.
func (a *allowed) options(text string) error {
	name := ""
	for part := range strings.SplitSeq(text, ",") {
		key, value, ok := strings.Cut(part, "=")
		if !ok && name == "namespaces" && part != "" {
			a.namespaces = append(a.namespaces, part)
			continue
		}
		name = strings.ToLower(key)
		var err error
		switch {
		case name == "":
		case name == "cert-authority":
			return errors.New("got cert-authority, want the people's own keys: certificates are not supported, name each key in a line of its own")
		case name == "namespaces" && ok:
			a.namespaces = append(a.namespaces, value)
		case name == "valid-after" && ok:
			a.after, err = parseTime(value)
		case name == "valid-before" && ok:
			a.before, err = parseTime(value)
		default:
			return fmt.Errorf("got the option %q, want namespaces=, valid-after= or valid-before=", part)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// parseTime reads a time as ssh-keygen does: a date, with hours and minutes or
// not, with seconds or not, of this machine's time zone unless a Z follows.
func parseTime(text string) (time.Time, error) {
	digits, utc := strings.CutSuffix(text, "Z")
	zone := time.Local
	if utc {
		zone = time.UTC
	}
	for _, layout := range []string{"20060102", "200601021504", "20060102150405"} {
		if len(layout) != len(digits) {
			continue
		}
		if t, err := time.ParseInLocation(layout, digits, zone); err == nil {
			return t, nil
		}
	}
	return time.Time{}, fmt.Errorf("got the time %q, want one such as 20270131 or 202701311530Z", text)
}

// Names returns who a key may sign as: the principals of its lines.
func (t *Trust) Names(key ssh.PublicKey, namespace string, when time.Time) ([]string, error) {
	var names []string
	var why error
	for _, a := range t.lines {
		if !bytes.Equal(a.key, key.Marshal()) {
			continue
		}
		if err := a.allows(namespace, when); err != nil {
			why = fmt.Errorf("line %d of the list: %w", a.number, err)
			continue
		}
		names = append(names, a.principals...)
	}
	switch {
	case len(names) > 0:
		return names, nil
	case why != nil:
		return nil, why
	}
	return nil, errUnknownKey
}

// errUnknownKey says that a key is in no line.
var errUnknownKey = errors.New("it is nobody's in the list")

// IsUnknownKey reports whether an error says that no line has the key.
func IsUnknownKey(err error) bool { return errors.Is(err, errUnknownKey) }

// Allows returns nil when a person may sign with a key in a namespace at a time.
func (t *Trust) Allows(who string, key ssh.PublicKey, namespace string, when time.Time) error {
	names, err := t.Names(key, namespace, when)
	if err != nil {
		return err
	}
	if !matches(who, names) {
		return fmt.Errorf("it is of %s there, not of %s", strings.Join(names, ", "), who)
	}
	return nil
}

func (a *allowed) allows(namespace string, when time.Time) error {
	switch {
	case a.namespaces != nil && !matches(namespace, a.namespaces):
		return fmt.Errorf("its namespaces are %s, not %s", strings.Join(a.namespaces, ","), namespace)
	case !a.after.IsZero() && when.Before(a.after):
		return fmt.Errorf("the key is valid from %s on, not yet at %s", say(a.after), say(when))
	case !a.before.IsZero() && when.After(a.before):
		return fmt.Errorf("the key was valid up to %s, no more at %s", say(a.before), say(when))
	}
	return nil
}

func say(t time.Time) string { return t.UTC().Format(time.RFC3339) }

// matches reports whether a text matches one of the patterns and none that
// begins with an exclamation mark.
func matches(text string, patterns []string) bool {
	found := false
	for _, p := range patterns {
		p, not := strings.CutPrefix(p, "!")
		if wild(p, text) {
			if not {
				return false
			}
			found = true
		}
	}
	return found
}

// wild matches * and ? and nothing else of path.Match.
func wild(pattern, text string) bool {
	ok, err := path.Match(strings.NewReplacer(`\`, `\\`, "[", `\[`, "/", "\x00").Replace(pattern), strings.ReplaceAll(text, "/", "\x00"))
	return ok && err == nil
}

// Plain returns the names that are no patterns.
func Plain(names []string) []string {
	plain := slices.DeleteFunc(slices.Clone(names), func(n string) bool { return strings.ContainsAny(n, "*?!") })
	slices.Sort(plain)
	return slices.Compact(plain)
}

// Has reports whether a key is in the list at all.
func (t *Trust) Has(key ssh.PublicKey) bool {
	return slices.ContainsFunc(t.lines, func(a allowed) bool { return bytes.Equal(a.key, key.Marshal()) })
}
