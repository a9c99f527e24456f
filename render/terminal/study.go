package terminal

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"tautline/render/report"
)

// Sweep prints the table of a sweep.
func Sweep(w io.Writer, s *report.Sweep) {
	fmt.Fprintf(w, "%s takes %d values from %s to %s; the notebook has %s.\n%s\n\n", s.Text, s.Steps, Say(s.From), Say(s.To), Say(s.Nominal), PlainSpaces(s.Summary))
	t := table{{"check", "at " + Say(s.From), "at " + Say(s.Nominal) + " (notebook)", "at " + Say(s.To), "greatest", "where", "fails"}}
	for _, r := range s.Rows {
		greatest := ""
		if r.Where != "" {
			greatest = r.Greatest.String()
		}
		t = append(t, []string{r.What, r.From.String(), r.Nominal.String(), r.To.String(), greatest, r.Where, r.Fails})
	}
	t.print(w, 1, 2, 3, 4)
	for _, n := range s.Notes {
		fmt.Fprintln(w, "\n"+PlainSpaces(n))
	}
}

// Tolerances prints the table of a study of tolerances.
func Tolerances(w io.Writer, s *report.Study) {
	var givens []string
	for _, g := range s.Givens {
		givens = append(givens, fmt.Sprintf("%s %s ± %s", g.Text, Say(g.Value), Say(g.PlusMinus)))
	}
	fmt.Fprintf(w, "Varied: %s; %d samples with seed %d.\n", strings.Join(givens, "; "), s.Samples, s.Seed)
	if len(s.Unvaried) > 0 {
		fmt.Fprintf(w, "Not varied, because computed: %s.\n", strings.Join(s.Unvaried, ", "))
	}
	fmt.Fprintf(w, "%s\n\n", s.Sentence())
	t := table{{"check", "as computed", "worst of one alone", "which", "greatest of the samples", "samples that fail"}}
	for _, c := range s.Checks {
		worst := "as computed"
		if c.By != "" {
			worst = c.Worst.String()
		}
		t = append(t, []string{c.What, c.Nominal.String(), worst, c.By, c.Greatest.String(), c.Failing()})
	}
	t.print(w, 1, 2, 4, 5)
	if trouble := s.Trouble(); trouble != "" {
		fmt.Fprintln(w, "\n"+trouble)
	}
}

// A table is rows of cells for a terminal, the first its heads.
type table [][]string

// print aligns the columns, those numbered in right at the right.
func (t table) print(w io.Writer, right ...int) {
	width := make([]int, len(t[0]))
	for _, row := range t {
		for i := range row {
			row[i] = PlainSpaces(row[i])
			width[i] = max(width[i], utf8.RuneCountInString(row[i]))
		}
	}
	for _, row := range t {
		var b strings.Builder
		for i, cell := range row {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(cell))
			if slices.Contains(right, i) {
				cell = pad + cell
			} else {
				cell += pad
			}
			b.WriteString(cell + "  ")
		}
		fmt.Fprintln(w, strings.TrimRight(b.String(), " "))
	}
}
