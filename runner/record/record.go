// Package record is sign-off: what a notebook said, what it computed and with
// what, frozen in one document that a person signs under a role.
//
//	r, err := record.Open("notebooks/records/lagoon-bed/0001.record")
//	fmt.Println(r.Role, r.By, r.Content.Notebook.Revision)
//
// Its nouns: a Record is the content of one run with who signed it, as what and
// when. A History is all records of one notebook, numbered from 1; each names the
// digest of the one before it, so that none can be changed or taken out unseen.
//
// FORMAT.md beside this file describes the document for those who read it without
// this program.
//
// Invariants: a file of a record is never changed; it is there whole or not at
// all; what differs from the file that was signed in one bit is no record.
package record

import (
	"fmt"
	"time"

	"tautline/runner/record/content"
)

// What stands at the head of every record.
const (
	Format    = "tautline record"
	Version   = 1
	Namespace = "tautline-record" // of its signature
)

// The roles, in the order in which they sign.
const (
	Prepared = "prepared"
	Checked  = "checked"
	Approved = "approved"
)

// Roles lists them.
func Roles() []string { return []string{Prepared, Checked, Approved} }

// A Record is what one person signed.
type Record struct {
	Format     string          `json:"format"`
	Version    int             `json:"version"`
	Number     int             `json:"number"` // in its folder, from 1
	Role       string          `json:"role"`
	By         string          `json:"by"`                   // the person, as the list of allowed signers names them
	Key        string          `json:"key"`                  // fingerprint of the key that signs
	At         time.Time       `json:"at"`                   // in whole seconds, UTC
	Follows    string          `json:"follows,omitempty"`    // SHA-256 of the file of the record before it
	Confirms   []Link          `json:"confirms,omitempty"`   // the records of other roles that this one rests on
	Exceptions []string        `json:"exceptions,omitempty"` // what would have been refused
	Reason     string          `json:"reason,omitempty"`     // why it was signed all the same
	Content    content.Content `json:"content"`
}

// A Link names a record of the same folder.
type Link struct {
	Number int    `json:"number"`
	Role   string `json:"role"`
	Digest string `json:"digest"` // SHA-256 of its file
}

// Label names a record for people.
func (r *Record) Label() string {
	return fmt.Sprintf("record %04d (%s by %s)", r.Number, r.Role, r.By)
}
