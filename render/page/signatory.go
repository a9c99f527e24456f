package page

import (
	"slices"

	"tautline/render/report"
)

// A signatory is one field of the title block: who signed, or room for it.
type signatory struct {
	Act, Role string
	Signed    *report.Signature // nil for room to sign on paper
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
			out.Signed = (&report.Revision{Signatures: p.Standing.Signed}).By(s.role)
		}
		list = append(list, out)
	}
	return list
}
