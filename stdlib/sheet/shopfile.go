package sheet

import (
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"
)

// DigestList is the name of the list of digests that stands beside the shop
// files. Not for cells.
const DigestList = "SHA256SUMS"

// A ShopText is the text of a file for a shop, under its name. Not for cells.
type ShopText struct{ Name, Text string }

// ShopFile makes a file for a shop: a cutting list, a pattern, a table for a
// machine. The report lists it, and `tautline shop` writes it.
//
// The name is that of a file without a folder: letters, digits, dots, dashes
// and underscores, at most 100 of them, with a letter or digit first and last;
// no two of a notebook differ only in upper and lower case. The text is UTF-8.
// It panics when it is not so.
func ShopFile(name, text string) { own.ShopFile(name, text) }

// ShopFile is the function ShopFile on this sheet. Not for cells.
func (s *Sheet) ShopFile(name, text string) {
	if fault := PlainName(name); fault != "" {
		panic(fmt.Errorf("sheet: ShopFile: name: got %q, want %s", name, fault))
	}
	key := strings.ToLower(name)
	if old, ok := s.shop[key]; ok {
		panic(fmt.Errorf("sheet: ShopFile: name: got %q again (there is %q), want a name of its own for each file", name, old))
	}
	if !utf8.ValidString(text) {
		panic(fmt.Errorf("sheet: ShopFile %q: text: got bytes that are not UTF-8, want text", name))
	}
	if s.shop == nil {
		s.shop = map[string]string{}
	}
	s.shop[key] = name
	s.put(Entry{ShopFile: &ShopText{name, text}}, len(name)+len(text))
}

var (
	plainName = regexp.MustCompile(`^[A-Za-z0-9]([A-Za-z0-9._-]{0,98}[A-Za-z0-9])?$`)
	// deviceName is what Windows takes for a device, with any ending.
	deviceName = regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\.|$)`)
)

// PlainName says what a file's name would have to be, or "" when it can be the
// name of a shop file on any system. Not for cells.
func PlainName(name string) string {
	switch {
	case !plainName.MatchString(name):
		return "a plain file name of letters, digits, dots, dashes and underscores, at most 100, such as panel-3.csv"
	case strings.EqualFold(name, DigestList):
		return "another name: this is that of the list of digests beside the shop files"
	case deviceName.MatchString(name):
		return "a name that is no device on Windows"
	}
	return ""
}
