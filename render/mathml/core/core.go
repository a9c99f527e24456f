// Package core reads MathML Core as a tree, for the tests of those who write it.
package core

import (
	"encoding/xml"
	"fmt"
	"io"
	"slices"
	"strings"
)

// An Element is an element with its children or its text.
type Element struct {
	Name string
	Text string
	Kids []*Element
}

// known are the elements of MathML Core that a report uses.
var known = strings.Fields("math mrow mi mn mo mtext mspace mfrac msqrt mroot msub msup msubsup munder mover munderover mtable mtr mtd mstyle")

// arity is how many children an element needs.
var arity = map[string]int{
	"mfrac": 2, "mroot": 2, "msub": 2, "msup": 2, "munder": 2, "mover": 2, "msubsup": 3, "munderover": 3,
}

// Parse checks that s is just one well-formed element of MathML Core, each
// element with the children that it needs.
func Parse(s string) (*Element, error) {
	d := xml.NewDecoder(strings.NewReader(s))
	top := &Element{}
	stack := []*Element{top}
	for {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, err
		}
		last := stack[len(stack)-1]
		switch tok := tok.(type) {
		case xml.StartElement:
			e := &Element{Name: tok.Name.Local}
			if !slices.Contains(known, e.Name) {
				return nil, fmt.Errorf("element: got %s", e.Name)
			}
			last.Kids = append(last.Kids, e)
			stack = append(stack, e)
		case xml.EndElement:
			if n, ok := arity[last.Name]; ok && len(last.Kids) != n {
				return nil, fmt.Errorf("%s: got %d children, want %d", last.Name, len(last.Kids), n)
			}
			stack = stack[:len(stack)-1]
		case xml.CharData:
			if last == top {
				return nil, fmt.Errorf("text outside the element: %q", tok)
			}
			last.Text += string(tok)
		default:
			return nil, fmt.Errorf("markup: got %T", tok)
		}
	}
	if len(top.Kids) != 1 {
		return nil, fmt.Errorf("elements at the top: got %d, want 1", len(top.Kids))
	}
	return top.Kids[0], nil
}
