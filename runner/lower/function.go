package lower

import (
	"fmt"
	"go/ast"
	"go/types"
	"strings"

	"tautline/runner/check/tree"
)

// The interpreter loses the sign of -0 when it passes an operand to a declared
// function, and calls a method four times as slowly as a function. So methods
// become functions, and operands that hold floats travel in a struct of which
// one field is never zero. Function literals need neither.

// operands lists what a function takes: its receiver, its parameters and, apart
// from them, a variadic one.
func operands(sig *types.Signature) (single []*types.Var, rest *types.Var) {
	if sig.Recv() != nil {
		single = append(single, sig.Recv())
	}
	for v := range sig.Params().Variables() {
		single = append(single, v)
	}
	if sig.Variadic() {
		last := len(single) - 1
		return single[:last], single[last]
	}
	return single, nil
}

// funcDecl writes a function or method.
func (l *lowerer) funcDecl(d *ast.FuncDecl) string {
	f := l.info.Defs[d.Name].(*types.Func)
	sig := f.Signature()
	single, rest := operands(sig)
	var params []string
	head := func() {}
	if input := l.input(f); input != "" {
		in := l.temp()
		params = append(params, in+" "+input)
		head = func() {
			for i, v := range single {
				if v.Name() != "" && v.Name() != "_" {
					l.line("%s := %s.F%d", l.local(v), in, i)
				}
			}
		}
	} else {
		for _, v := range single {
			params = append(params, l.local(v)+" "+l.typeText(v.Type()))
		}
	}
	if rest != nil {
		params = append(params, l.local(rest)+" "+l.parameterType(sig, rest))
	}
	body := l.body(sig, d.Body, 0, head)
	return fmt.Sprintf("func %s(%s) %s %s\n", l.local(f), strings.Join(params, ", "), l.resultText(sig), body)
}

// input is the type of the struct in which f takes its operands, or "" when it
// takes them one by one.
func (l *lowerer) input(f *types.Func) string {
	name, known := l.inputs[f]
	if known {
		return name
	}
	single, _ := operands(f.Signature())
	var fields []string
	floats := false
	for i, v := range single {
		floats = floats || tree.Holds(v.Type(), isFloat)
		fields = append(fields, fmt.Sprintf("F%d %s", i, l.typeText(v.Type())))
	}
	if floats {
		name = l.temp()
		l.decls = append(l.decls, fmt.Sprintf("type %s struct { Set bool; %s }\n", name, strings.Join(fields, "; ")))
	}
	l.inputs[f] = name
	return name
}

func isFloat(t types.Type) bool {
	b, ok := t.Underlying().(*types.Basic)
	return ok && b.Info()&types.IsFloat != 0
}

// invoke writes a call of f with operands that are written already.
func (l *lowerer) invoke(f *types.Func, args []string, ellipsis bool) string {
	if input := l.input(f); input != "" {
		single, _ := operands(f.Signature())
		all := fmt.Sprintf("(%s{true, %s})", input, strings.Join(args[:len(single)], ", "))
		args = append([]string{all}, args[len(single):]...)
	}
	text := strings.Join(args, ", ")
	if ellipsis {
		text += "..."
	}
	return l.local(f) + "(" + text + ")"
}

// ownCall writes a call of a function or method of the notebook.
func (l *lowerer) ownCall(e *ast.CallExpr, f *types.Func) string {
	var args []string
	if recv := f.Signature().Recv(); recv != nil {
		x := ast.Unparen(e.Fun).(*ast.SelectorExpr).X
		text := l.expr(x)
		_, wants := recv.Type().Underlying().(*types.Pointer)
		_, has := l.info.Types[x].Type.Underlying().(*types.Pointer)
		switch {
		case wants && !has:
			text = "&(" + text + ")"
		case !wants && has:
			text = "*(" + text + ")"
		}
		args = append(args, text)
	}
	for _, a := range e.Args {
		args = append(args, l.expr(a))
	}
	return l.invoke(f, args, e.Ellipsis.IsValid())
}

// funcValue writes a function of the notebook used as a value.
func (l *lowerer) funcValue(f *types.Func) string {
	sig := f.Signature()
	if l.input(f) == "" {
		return l.local(f)
	}
	var params, args []string
	for v := range sig.Params().Variables() {
		args = append(args, l.temp())
		params = append(params, args[len(args)-1]+" "+l.parameterType(sig, v))
	}
	verb := "return "
	if sig.Results().Len() == 0 {
		verb = ""
	}
	return fmt.Sprintf("(func(%s) %s { %s%s })", strings.Join(params, ", "), l.resultText(sig), verb, l.invoke(f, args, sig.Variadic()))
}
