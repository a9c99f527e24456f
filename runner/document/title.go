package document

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"tautline/runner/document/margin"
)

// titleKeys are the keys of a title block, in the order they are best written.
var titleKeys = []string{"title", "number", "revision", "project", "prepared",
	"checked", "approved", "signatures", "standards", "system", "units"}

const minimalTitle = "begin the file with\n---\ntitle: Landing bed\n---"

// title reads the title block and returns how many lines it takes.
func (r *reader) title() int {
	r.nb.Title.System = "SI"
	if len(r.lines) == 0 || !isTitleFence(r.lines[0]) {
		at := Position{1, 1}
		r.fail(Range{at, at}, minimalTitle, "title block: got none, want one on the first line")
		return 0
	}
	opening := Range{Position{1, 1}, Position{1, len(r.lines[0]) + 1}}
	end := r.titleEnd()
	if end < 0 {
		r.fail(opening, "end the title block with a line ---", "title block: got no end, want a second ---")
		return 1
	}
	r.nb.Title.Range = Range{opening.Start, Position{end + 1, len(r.lines[end]) + 1}}
	if root := r.titleYAML(bytes.Join(r.lines[1:end], []byte("\n"))); root != nil {
		r.titleFields(root)
	}
	return end + 1
}

func isTitleFence(line []byte) bool { return string(bytes.TrimRight(line, margin.White)) == "---" }

// titleEnd returns the index of the line that ends the title block, or -1. It
// looks no further than the first fenced block: a --- below that is prose, and
// the cells between are not to be lost.
func (r *reader) titleEnd() int {
	for i, line := range r.lines[1:] {
		if isTitleFence(line) {
			return i + 1
		}
		if bytes.HasPrefix(line, []byte("```")) || bytes.HasPrefix(line, []byte("~~~")) {
			break
		}
	}
	return -1
}

// titleYAML returns the top node of a title block, nil if it cannot be read.
func (r *reader) titleYAML(text []byte) (root *yaml.Node) {
	var doc, second yaml.Node
	err := decode(text, &doc, &second)
	switch {
	case err != nil:
		r.brokenYAML(err)
		return nil
	case len(second.Content) > 0:
		r.fail(r.nodeRange(second.Content[0]), "leave out the line that divides it", "title block: got two YAML documents, want one")
	}
	if len(doc.Content) == 0 {
		return &yaml.Node{Kind: yaml.MappingNode}
	}
	root = doc.Content[0]
	if root.Kind == yaml.ScalarNode && root.Tag == "!!null" {
		return &yaml.Node{Kind: yaml.MappingNode}
	}
	if root.Kind != yaml.MappingNode {
		r.fail(r.nodeRange(root), "write a line such as title: Landing bed", "title block: got %s, want lines of key: value", kindOf(root))
		return nil
	}
	return root
}

func decode(text []byte, nodes ...*yaml.Node) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("yaml: %v", p)
		}
	}()
	d := yaml.NewDecoder(bytes.NewReader(text))
	for _, n := range nodes {
		if err := d.Decode(n); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
	return nil
}

var yamlLine = regexp.MustCompile(`^(?:yaml: )?line (\d+): `)

// brokenYAML reports a syntax error at its line.
func (r *reader) brokenYAML(err error) {
	what, line := strings.TrimPrefix(err.Error(), "yaml: "), 1
	if m := yamlLine.FindStringSubmatch(err.Error()); m != nil {
		line, _ = strconv.Atoi(m[1])
		what = err.Error()[len(m[0]):]
		if strings.HasPrefix(what, "did not find expected") {
			line++ // the YAML parser counts lines from 0, its scanner from 1
		}
	}
	line = min(line+1, r.nb.Title.Range.End.Line) // below the opening ---
	at := r.wholeLine(line)
	hint := "write key: value, one on a line; put a value with : or # in it between quotes"
	if bytes.Contains(r.lines[line-1][:at.Start.Column-1], []byte("\t")) {
		hint = "indent with spaces: YAML takes no tab"
	}
	r.fail(at, hint, "title block: got broken YAML (%s), want key: value", what)
}

// wholeLine returns the range of a line without the white space around it.
func (r *reader) wholeLine(n int) Range {
	line := r.lines[n-1]
	text := bytes.TrimLeft(line, margin.White)
	start := len(line) - len(text) + 1
	return Range{Position{n, start}, Position{n, start + len(bytes.TrimRight(text, margin.White))}}
}

// nodeRange returns the place of a node, which YAML counts in characters.
func (r *reader) nodeRange(n *yaml.Node) Range {
	at := r.wholeLine(min(max(n.Line+1, 1), len(r.lines)))
	line := r.lines[at.Start.Line-1]
	off := 0
	for column := 1; column < n.Column && off < len(line); column++ {
		_, size := utf8.DecodeRune(line[off:])
		off += size
	}
	at.Start.Column = off + 1
	if n.Kind == yaml.ScalarNode && bytes.HasPrefix(line[off:], []byte(n.Value)) {
		at.End.Column = off + len(n.Value) + 1
	}
	at.End.Column = max(at.End.Column, at.Start.Column)
	return at
}

func kindOf(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a map"
	case yaml.SequenceNode:
		return "a list"
	case yaml.AliasNode:
		return "an alias"
	}
	return "text"
}

// titleFields fills the title block from its keys.
func (r *reader) titleFields(root *yaml.Node) {
	t := &r.nb.Title
	texts := map[string]*string{
		"title": &t.Title, "number": &t.Number, "revision": &t.Revision, "project": &t.Project,
		"prepared": &t.Prepared, "checked": &t.Checked, "approved": &t.Approved,
	}
	r.pairs(root, "title block", func(key, value *yaml.Node) {
		switch name := key.Value; name {
		case "standards":
			t.Standards = r.texts(name, value)
		case "signatures":
			t.Signatures = r.signatures(value)
		case "units":
			t.Units = r.units(value)
		case "system":
			r.system(value)
		default:
			field, ok := texts[name]
			if !ok {
				r.unknownKey(key)
			} else if s, ok := r.line(name, value); ok {
				*field = s
			}
		}
	})
	if t.Title == "" {
		r.fail(r.wholeLine(1), "write a line such as title: Landing bed", "title: got none, want the title of the notebook")
	}
}

func (r *reader) unknownKey(key *yaml.Node) {
	hint := "the keys are " + strings.Join(titleKeys, ", ")
	if near, ok := Nearest(key.Value, titleKeys); ok {
		hint = "did you mean " + near + "?"
	}
	r.warn(r.nodeRange(key), hint, "title block: got unknown key %q, want a key of the title block", shorten(key.Value))
}

// pairs calls f for each pair of a map whose key is text and stands there once.
func (r *reader) pairs(m *yaml.Node, what string, f func(key, value *yaml.Node)) {
	seen := map[string]*yaml.Node{}
	for i := 0; i+1 < len(m.Content); i += 2 {
		key := m.Content[i]
		if key.Kind != yaml.ScalarNode {
			r.fail(r.nodeRange(key), "write key: value", "%s: got %s as a key, want a word", what, kindOf(key))
			continue
		}
		if first := seen[key.Value]; first != nil {
			r.report(Diagnostic{
				Range:   r.nodeRange(key),
				Message: fmt.Sprintf("%s: got key %q twice, want it once", what, shorten(key.Value)),
				Hint:    "keep one of them",
				Notes:   []Note{{r.nodeRange(first), "it stands here first"}},
			})
			continue
		}
		seen[key.Value] = key
		f(key, m.Content[i+1])
	}
}

// line returns a value that is one line of text. A number or a date counts as
// the text it is written in.
func (r *reader) line(name string, v *yaml.Node) (string, bool) {
	if v.Kind != yaml.ScalarNode {
		r.fail(r.nodeRange(v), "write "+name+": followed by text", "%s: got %s, want text", name, kindOf(v))
		return "", false
	}
	if v.Tag == "!!null" {
		return "", true
	}
	return strings.Join(strings.Fields(v.Value), " "), true
}

func (r *reader) texts(name string, v *yaml.Node) []string {
	if v.Kind == yaml.ScalarNode && v.Tag == "!!null" {
		return nil
	}
	if v.Kind != yaml.SequenceNode {
		r.fail(r.nodeRange(v), "write each on its own line below "+name+":, after a - and a space", "%s: got %s, want a list", name, kindOf(v))
		return nil
	}
	var list []string
	for _, item := range v.Content {
		if s, ok := r.line(name, item); ok && s != "" {
			list = append(list, s)
		}
	}
	return list
}

// signatures reads the roles that must sign the notebook.
func (r *reader) signatures(v *yaml.Node) []string {
	list := r.texts("signatures", v)
	for i, role := range list {
		switch {
		case role != "prepared" && role != "checked" && role != "approved":
			r.fail(r.nodeRange(v), "write signatures: [prepared, checked, approved], or the first one or two of them", "signatures: got %q, want prepared, checked or approved", shorten(role))
			return nil
		case slices.Contains(list[:i], role):
			r.fail(r.nodeRange(v), "keep one of them", "signatures: got %s twice, want it once", role)
			return nil
		}
	}
	if len(list) > 0 && !slices.Contains(list, "prepared") {
		r.fail(r.nodeRange(v), "add prepared: who answers for the notebook signs first", "signatures: got no prepared, want it among them")
		return nil
	}
	return list
}

func (r *reader) units(v *yaml.Node) map[string]string {
	if v.Kind == yaml.ScalarNode && v.Tag == "!!null" {
		return nil
	}
	if v.Kind != yaml.MappingNode {
		r.fail(r.nodeRange(v), "write units: and below it, indented, lines such as T: kN/m", "units: got %s, want a map", kindOf(v))
		return nil
	}
	units := map[string]string{}
	r.pairs(v, "units", func(key, value *yaml.Node) {
		if s, ok := r.line(key.Value, value); ok {
			units[key.Value] = s
		}
	})
	return units
}

func (r *reader) system(v *yaml.Node) {
	s, ok := r.line("system", v)
	switch {
	case !ok || s == "":
	case s == "SI" || s == "US":
		r.nb.Title.System = s
	default:
		r.fail(r.nodeRange(v), "write system: SI or system: US", "system: got %q, want SI or US", shorten(s))
	}
}
