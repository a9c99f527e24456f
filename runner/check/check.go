package check

import (
	"fmt"
	"go/ast"
	"go/constant"
	"io/fs"
	"slices"
	"strings"
	"unicode"

	"tautline/runner/check/dimension"
	"tautline/runner/check/owner"
	"tautline/runner/check/tree"
	"tautline/runner/document"
)

// Check reads and checks the cells of a notebook. The plan is never nil; it
// can be run only when no diagnostic is an error.
func Check(nb *document.Notebook) (*Plan, []document.Diagnostic) {
	t, diags := tree.Read(nb)
	p := &Plan{Tree: t, dims: dimension.New(t)}
	if len(diags) == 0 {
		diags = owner.Check(t)
	}
	if len(diags) == 0 {
		diags = p.check()
	}
	document.Sort(diags)
	return p, p.first(diags)
}

// check finds what is wrong with a notebook that Go accepts.
func (p *Plan) check() []document.Diagnostic {
	diags := p.dims.Check()
	files, errs := p.dataFiles()
	p.Data = files
	diags = append(diags, errs...)
	if hasErrors(diags) {
		return diags // advice is for a notebook that is right so far
	}
	return append(diags, p.advice()...)
}

// dataFiles lists the constant names given to sheet.ReadData and sheet.ReadText,
// each once.
func (p *Plan) dataFiles() (files []DataFile, diags []document.Diagnostic) {
	p.Inspect(func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		if name, _ := p.SheetCall(call); name != "ReadData" && name != "ReadText" || len(call.Args) != 1 {
			return true
		}
		arg := call.Args[0]
		v := p.Info.Types[arg].Value
		if v == nil {
			diags = append(diags, p.ErrorAt(p.Range(arg), "the name of a data file must be a constant text",
				"so that a reader and the record know which files the notebook depends on"))
			return true
		}
		file := constant.StringVal(v)
		if !fs.ValidPath(file) || file == "." || strings.ContainsAny(file, `/\:`) || strings.ContainsFunc(file, unicode.IsControl) {
			diags = append(diags, p.ErrorAt(p.Range(arg), fmt.Sprintf("data file %q: want the name of a file beside the notebook, without a path", file),
				"put the file beside the notebook and write only its name"))
			return true
		}
		if !slices.ContainsFunc(files, func(f DataFile) bool { return f.Name == file }) {
			files = append(files, DataFile{file, p.Range(arg)})
		}
		return true
	})
	return files, diags
}

func hasErrors(diags []document.Diagnostic) bool {
	return slices.ContainsFunc(diags, func(d document.Diagnostic) bool { return d.Severity == document.Error })
}

// first keeps as many diagnostics as anyone reads. What says so is an error only
// when it stands for one.
func (p *Plan) first(diags []document.Diagnostic) []document.Diagnostic {
	if len(diags) <= tree.MaxErrors {
		return diags
	}
	rest := diags[tree.MaxErrors:]
	more := p.ErrorAt(rest[0].Range, fmt.Sprintf("findings: got more than %d, want fewer", tree.MaxErrors), "put the first ones right and run again")
	if !hasErrors(rest) {
		more.Severity = document.Warning
	}
	return append(diags[:tree.MaxErrors:tree.MaxErrors], more)
}
