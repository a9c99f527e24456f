// Package mathml prints Go expressions as MathML, the way an engineer writes a
// calculation by hand.
//
//	e, _ := parser.ParseExpr("0.5*rho*v*v")
//	line := mathml.Steps(
//		mathml.Symbol("qp"),                    // q with subscript p
//		mathml.Expr(e, mathml.Options{}),       // ½·ρ·v²
//		mathml.Quantity("88.2", "Pa"),          // 88.2 Pa
//	)
//	html := mathml.Math(line, true, "q_p = ½·ρ·v² = 88.2 Pa")
//
// Expr prints an expression of a cell; its Options put numbers in place of
// names. It gives MathML Core, which browsers set without script, as text.
//
// Invariants: every character that comes from outside is escaped, so the text
// may stand in a page as it is; every function that returns MathML returns just
// one element, so that any result may stand inside any other; parentheses are
// those that the printed form needs, not those of the Go source.
package mathml
