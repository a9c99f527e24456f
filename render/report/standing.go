package report

import "slices"

// A Standing says who signed a notebook, and what has become of it since.
type Standing struct {
	State     string      // in words, such as "Draft, prepared, not yet checked"
	Draft     bool        // not all have signed the notebook as it is
	Signed    []Signature // that hold for the notebook as it is
	Revisions []*Revision // every one that was signed, the oldest first
}

// A Signature is that of one person under a role.
type Signature struct {
	Role string // "prepared", "checked" or "approved"
	By   string // the person
	On   string // the day
	Flaw string // why it does not hold; empty when it does
}

// A Revision is one issue of a notebook as it was signed.
type Revision struct {
	Mark       string
	Signatures []Signature
	Remarks    []string // such as "superseded", or why it was signed although a check fails
}

// By is the signature under a role; nil when there is none.
func (r *Revision) By(role string) *Signature {
	if i := slices.IndexFunc(r.Signatures, func(s Signature) bool { return s.Role == role }); i >= 0 {
		return &r.Signatures[i]
	}
	return nil
}

// Unsigned is the state of a notebook that nobody signed.
const Unsigned = "Draft, not signed"

// Stand says in a report how its notebook stands.
func (r *Report) Stand(s *Standing) {
	r.Standing, r.State = s, s.State
}

// Draft reports whether not all have signed the notebook as it is.
func (r *Report) Draft() bool { return r.Standing == nil || r.Standing.Draft }
