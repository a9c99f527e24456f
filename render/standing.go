package render

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

// unsigned is the state of a notebook that nobody signed.
const unsigned = "Draft, not signed"

// Stand says in a report how its notebook stands.
func (r *Report) Stand(s *Standing) {
	r.Standing, r.State = s, s.State
}

// Draft reports whether not all have signed the notebook as it is.
func (r *Report) Draft() bool { return r.Standing == nil || r.Standing.Draft }

// A signatory is one field of the title block: who signed, or room for it.
type signatory struct {
	Act, Role string
	Signed    *Signature // nil for room to sign on paper
}

// Signatories are those who must sign.
func (p *page) Signatories() []signatory {
	var list []signatory
	for _, s := range []struct{ role, act, who string }{
		{"prepared", "Prepared", p.Title.Prepared}, {"checked", "Checked", p.Title.Checked}, {"approved", "Approved", p.Title.Approved},
	} {
		if len(p.Title.Signatures) > 0 && !slices.Contains(p.Title.Signatures, s.role) {
			continue
		}
		out := signatory{Act: s.act, Role: s.who}
		if p.Standing != nil {
			out.Signed = (&Revision{Signatures: p.Standing.Signed}).By(s.role)
		}
		list = append(list, out)
	}
	return list
}
