package report

import "cmp"

// Shown lists by anchor what each line and check of a report shows, in plain
// letters, so that two reports of one notebook can be compared.
func (r *Report) Shown() map[string]string {
	shown := map[string]string{}
	for _, c := range r.Cells {
		for _, part := range c.Parts {
			switch part := part.(type) {
			case *Line:
				if part.ID != "" && part.Text != "" {
					shown[part.ID] = part.Text
				}
			case *Fold:
				for _, line := range part.Lines {
					shown[line.ID] = line.Text
				}
			case *CheckPart:
				shown[part.ID] = cmp.Or(part.Percent(), part.Word())
			case *PlatePart:
				shown[part.ID] = part.Says
			case *TrialPart:
				shown[part.ID] = part.Standing()
			}
		}
	}
	return shown
}
