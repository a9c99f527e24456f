package sketch

import (
	"testing"

	"tautline/stdlib/internal/vector"
)

// No view is a mirror image: right times up, as a cross product, points to who
// looks, who stands above, before or beside the frame.
func TestViewsAreNotMirrored(t *testing.T) {
	for view, from := range map[View]vector.Vector{Isometric: {1, 1, 1}, Skew: {0.42, -0.91, 0.53}, Plan: {0, 0, 1}, Front: {0, -1, 0}, Side: {1, 0, 0}} {
		var right, up vector.Vector
		for i := range 3 {
			var axis vector.Vector
			axis[i] = 1
			right[i], up[i] = view.on(axis)
		}
		to := vector.Vector{right[1]*up[2] - right[2]*up[1], right[2]*up[0] - right[0]*up[2], right[0]*up[1] - right[1]*up[0]}
		if along := to[0]*from[0] + to[1]*from[1] + to[2]*from[2]; along <= 0 {
			t.Errorf("%s: right %v and up %v make a mirror image", view, right, up)
		}
	}
}
