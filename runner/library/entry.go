package library

import (
	"regexp"
	"slices"
	"strings"
)

// Takes is what stands after the name of a function or method: what it takes and
// gives, the dimensions without their package; a constant's type. It is empty for a
// type.
func (e Entry) Takes() string {
	text := strings.ReplaceAll(e.Signature, "units.", "")
	switch e.Kind {
	case Function, Method:
		text = strings.TrimPrefix(text, "func ")
		if e.Kind == Method {
			_, text, _ = strings.Cut(text, ") ")
		}
		name := e.Name[strings.LastIndexByte(e.Name, '.')+1:]
		return strings.Join(strings.Fields(strings.TrimPrefix(text, name)), " ")
	case Constant:
		if fields := strings.Fields(text); len(fields) > 3 && fields[2] != "=" {
			return " " + fields[2]
		}
	}
	return ""
}

// A Dimension of a signature, with the units of package units that cells can write.
type Dimension struct {
	Name  string   // Pressure
	Units []string // units.Pa, units.KPa
}

var inUnits = regexp.MustCompile(`\bunits\.([A-Z]\w*)`)

// Dimensions are those of a signature, each once, in the order of the signature.
func (e Entry) Dimensions() []Dimension {
	var list []Dimension
	for _, m := range inUnits.FindAllStringSubmatch(e.Signature, -1) {
		if slices.ContainsFunc(list, func(d Dimension) bool { return d.Name == m[1] }) {
			continue
		}
		d := Dimension{Name: m[1]}
		for _, c := range Symbols("tautline/stdlib/units") {
			if c.Kind == Constant && strings.Fields(c.Signature)[2] == d.Name {
				d.Units = append(d.Units, "units."+c.Name)
			}
		}
		if len(d.Units) > 0 {
			list = append(list, d)
		}
	}
	return list
}

// Methods are those of a type of a package.
func Methods(path, name string) []Entry {
	var list []Entry
	for _, m := range Symbols(path) {
		if m.Kind == Method && strings.HasPrefix(m.Name, name+".") {
			list = append(list, m)
		}
	}
	return list
}

// Makers are what gives a value of a type, in its own package.
func Makers(path, name string) []Entry {
	gives := regexp.MustCompile(`\b` + regexp.QuoteMeta(name) + `\b`)
	var list []Entry
	for _, m := range Symbols(path) {
		if (m.Kind == Function || m.Kind == Method) && !strings.HasPrefix(m.Name, name+".") && gives.MatchString(results(m.Signature)) {
			list = append(list, m)
		}
	}
	return list
}

// results is what stands after the parameters of a signature.
func results(signature string) string {
	depth, lists := 0, 1
	if strings.HasPrefix(signature, "func (") {
		lists = 2 // the receiver comes first
	}
	for i, c := range signature {
		switch c {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				if lists--; lists == 0 {
					return signature[i+1:]
				}
			}
		}
	}
	return ""
}
