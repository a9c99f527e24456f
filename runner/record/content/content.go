// Package content is what one run of a notebook gave, and with what, as plain
// data that can be written down exactly and compared.
//
//	now, err := content.Of(result, tool)
//	for _, m := range content.Compare(&signed, now).Moves { … }
//
// Invariant: the same run gives the same Content.
package content

import (
	"crypto/sha256"
	"encoding/hex"
	"strconv"
	"strings"

	"tautline/stdlib/quantity"
)

// A Content is what one run of a notebook gave, and with what.
type Content struct {
	Notebook Notebook `json:"notebook"`
	Files    []File   `json:"files,omitempty"` // data files, pictures and readings
	Names    []Name   `json:"names,omitempty"` // in the order of the notebook
	Checks   []Check  `json:"checks,omitempty"`
	Trials   []Trial  `json:"trials,omitempty"`
	Shown    []Shown  `json:"shown,omitempty"` // tables, figures, shop files
	Sources  []string `json:"sources,omitempty"`
	Tool     Tool     `json:"tool"`
}

// A Notebook is the text of a notebook and what its title block says.
type Notebook struct {
	File     string   `json:"file"` // without its folder
	Digest   string   `json:"digest"`
	Title    string   `json:"title"`
	Number   string   `json:"number,omitempty"`
	Revision string   `json:"revision,omitempty"`
	Project  string   `json:"project,omitempty"`
	Roles    []string `json:"roles"` // that must sign it
	Text     string   `json:"text"`  // to the byte
}

// A File is one beside the notebook that it rests on.
type File struct {
	Name   string `json:"name"`
	Digest string `json:"digest"` // SHA-256
}

// A Name is a top-level name of the notebook.
type Name struct {
	Name   string   `json:"name"`
	Line   int      `json:"line"`
	Given  bool     `json:"given,omitempty"`
	Uses   []string `json:"uses,omitempty"`  // names that it reads
	Calls  []string `json:"calls,omitempty"` // functions of the library that it calls
	Values []Value  `json:"values,omitempty"`
}

// A Value is a number, a text or a truth that a name holds: the name itself, or a
// part of it such as "ring.Radius" or "loads[2].Name". One whose path has an empty
// index, such as "pieces[].Width", holds that of every element.
type Value struct {
	Path      string `json:"path"`
	Dimension string `json:"dimension,omitempty"` // of a number, such as "kg·m⁻¹·s⁻²" or "1"; "unknown" when it could not be inferred, left out when the library did not say
	Alias     string `json:"alias,omitempty"`     // of package units, where one names it more closely
	Number    string `json:"number,omitempty"`    // the shortest decimal that reads back as the same float64; in SI base units
	Text      string `json:"text,omitempty"`      // of what is no number
	List      string `json:"list,omitempty"`      // numbers of a list, as Number, with a space between; a semicolon where the next element of an outer list begins
	Left      int    `json:"left,omitempty"`      // elements of a list that were too many to keep
}

// A Check compares a demand with what is allowed.
type Check struct {
	What        string `json:"what"`
	Line        int    `json:"line"`
	Rule        string `json:"rule"`
	Dimension   string `json:"dimension,omitempty"`
	Alias       string `json:"alias,omitempty"`
	Demand      string `json:"demand,omitempty"` // numbers as in a Value
	Low         string `json:"low,omitempty"`
	High        string `json:"high,omitempty"`
	Utilisation string `json:"utilisation,omitempty"`
	Holds       bool   `json:"holds"`
	Source      string `json:"source,omitempty"`
}

// A Trial is what is to be measured on the built ride, and how it stood.
type Trial struct {
	What      string `json:"what"`
	Line      int    `json:"line"`
	Predicted string `json:"predicted"` // numbers in SI base units, as in a Value
	Tolerance string `json:"tolerance"`
	Reading   string `json:"reading,omitempty"` // the last, with its unit, as it was read
	Outside   bool   `json:"outside,omitempty"` // of the tolerance
}

// A Shown is a thing on the report that is kept by its digest alone.
type Shown struct {
	Kind   string `json:"kind"` // "table", "figure", "drawing", "rose", "plate", "shop file"
	Title  string `json:"title"`
	Line   int    `json:"line"`
	Digest string `json:"digest"` // SHA-256 of its numbers and texts in canonical JSON; of a shop file: of its text
}

// A Tool is what computed a Content.
type Tool struct {
	Program   string            `json:"program"`
	Go        string            `json:"go"`
	Platform  string            `json:"platform"`            // such as linux/amd64
	Library   string            `json:"library"`             // digest of its source
	Changes   int               `json:"changes"`             // lines that the library's list of changes had
	Functions map[string]string `json:"functions,omitempty"` // those of the library that the notebook uses, with the digest of what each can come to
}

// Say writes an exact number for people, in the unit that suits it.
func Say(number, dimension, alias string) string {
	v, ok := parse(number)
	if !ok {
		return number
	}
	d, ok := quantity.ParseDimension(dimension)
	if !ok {
		return number
	}
	u, ok := quantity.ChooseAs(alias, v, quantity.SI)
	if !ok || u.Dimension != d {
		u = quantity.Choose(d, v, quantity.SI)
	}
	return strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(quantity.Text(v, u, 6))
}

// Digest is the SHA-256 of a text in hexadecimal.
func Digest(text []byte) string {
	sum := sha256.Sum256(text)
	return hex.EncodeToString(sum[:])
}

// Unknown is the dimension of a number whose dimension could not be inferred.
const Unknown = "unknown"

// exact writes a number so that it reads back as the same.
func exact(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// parse reads what exact wrote.
func parse(number string) (float64, bool) {
	v, err := strconv.ParseFloat(number, 64)
	return v, err == nil
}
