package document

import "strings"

// Nearest returns the name that was most likely meant by name, for a hint after
// a slip of the pen. It counts letters put in, left out, changed or swapped
// with their neighbour, capitals aside; one slip is allowed in three to five
// letters, two up to eight, three beyond. Of equally near names the first wins.
func Nearest(name string, names []string) (string, bool) {
	want := []rune(strings.ToLower(name))
	limit := min((len(want))/3, 3)
	best, found := "", false
	for _, n := range names {
		got := []rune(strings.ToLower(n))
		if n == name || abs(len(got)-len(want)) > limit {
			continue
		}
		if d := distance(want, got); d <= limit {
			best, found, limit = n, true, d-1
		}
	}
	return best, found
}

func abs(n int) int { return max(n, -n) }

// distance is the Damerau-Levenshtein distance between a and b in its
// restricted form: no letter is moved twice.
func distance(a, b []rune) int {
	before := make([]int, len(b)+1) // two rows up
	above := make([]int, len(b)+1)
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range a {
		before, above, row = above, row, before
		row[0] = i + 1
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			row[j+1] = min(above[j+1]+1, row[j]+1, above[j]+cost)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				row[j+1] = min(row[j+1], before[j-1]+1)
			}
		}
	}
	return row[len(b)]
}
