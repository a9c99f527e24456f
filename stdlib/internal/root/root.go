// Package root finds where a function crosses zero.
package root

// Bisect finds where f, not above 0 at low and not below 0 at high, crosses 0,
// as closely as floating point numbers lie.
func Bisect(low, high float64, f func(float64) float64) float64 {
	for {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			return middle
		}
		if f(middle) <= 0 {
			low = middle
		} else {
			high = middle
		}
	}
}
