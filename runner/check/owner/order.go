package owner

import (
	"fmt"
	"go/ast"
	"go/types"

	"tautline/runner/check/tree"
	"tautline/runner/document"
)

// order finds names that are read before they are set. The order of reading is
// the order of computing, so a name is set in the source before its first use;
// a function may stand anywhere, but what it reads must be set before it is
// called.
func (k *keeper) order() []document.Diagnostic {
	home := map[types.Object]*tree.Name{}
	for _, n := range k.Names {
		home[n.Object] = n
	}
	var diags []document.Diagnostic
	bodies := k.Functions()
	done := map[types.Object]bool{} // set, or reported
	for _, c := range k.Cells {
		for _, step := range c.Steps {
			for _, part := range step.Parts() {
				k.Reads(part, bodies, map[types.Object]bool{}, func(obj types.Object, at ast.Node, through string) {
					n := home[obj]
					if n == nil || done[obj] {
						return
					}
					done[obj] = true
					message := fmt.Sprintf("%s is used before it is set", n.Ident)
					if through != "" {
						message = fmt.Sprintf("%s reads %s before it is set", through, n.Ident)
					}
					d := k.ErrorAt(k.Range(at), message, "set it above this place")
					d.Notes = []document.Note{{Range: n.Range, Message: n.Ident + " is set here"}}
					diags = append(diags, d)
				})
				for _, id := range tree.Defined(part) {
					done[k.Info.Defs[id]] = true
				}
			}
		}
	}
	return diags
}
