package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"

	"tautline/runner/check"
	"tautline/runner/engine"
	"tautline/runner/lower"
	"tautline/runner/outcome"
)

// Tolerances runs prog with its givens anywhere within the tolerances that
// sheet.PlusMinus states in base, the notebook's own outcome: each given alone
// at both ends, and then all at once in so many samples of a Latin hypercube.
// That cuts the tolerance of each given into as many equal strata as there are
// samples and draws one value from each, evenly, so that even few samples cover
// all of every tolerance. limits and progress are those of Sweep.
//
// Source: M. D. McKay, R. J. Beckman, W. J. Conover, A Comparison of Three
// Methods for Selecting Values of Input Variables in the Analysis of Output from
// a Computer Code, Technometrics 21 (1979) 239–245, from memory: verify against
// the document.
func Tolerances(ctx context.Context, plan *check.Plan, prog *lower.Program, base *outcome.Outcome, samples int, seed uint64, limits engine.Limits, progress func(done, total int)) (*outcome.Toleranced, error) {
	if samples < 1 || samples > maxRuns {
		return nil, fmt.Errorf("tolerances: got %d samples, want 1 to %d", samples, maxRuns)
	}
	out := &outcome.Toleranced{Samples: samples, Seed: seed}
	if err := gather(out, plan, prog, base); err != nil {
		return nil, err
	}
	variants := []engine.Variant{{}}
	for _, g := range out.Givens {
		variants = append(variants, engine.Variant{g.Given: g.Value - g.PlusMinus}, engine.Variant{g.Given: g.Value + g.PlusMinus})
	}
	for _, row := range hypercube(samples, len(out.Givens), rand.New(rand.NewPCG(seed, 0))) {
		v := engine.Variant{}
		for k, g := range out.Givens {
			v[g.Given] = g.Value + (2*row[k]-1)*g.PlusMinus
		}
		variants = append(variants, v)
	}
	l := &lab{ctx: ctx, prog: prog, limits: limits, progress: progress}
	trials, err := l.run(variants)
	if err == nil {
		err = standing(trials[0])
	}
	if err != nil {
		return nil, err
	}
	weigh(out, trials)
	return out, nil
}

// gather finds the givens with a tolerance, in the order of the notebook.
func gather(out *outcome.Toleranced, plan *check.Plan, prog *lower.Program, base *outcome.Outcome) error {
	varied := map[int]bool{} // by statement
	for _, name := range givens(plan, prog) {
		n := plan.Names[name]
		tolerance := 0.0
		for _, e := range stated(plan, base, n) {
			if e.Tolerance != nil {
				tolerance = float64(e.Tolerance.PlusMinus)
				varied[e.Site] = true
			}
		}
		if !(tolerance >= 0) || math.IsInf(tolerance, 0) {
			return fmt.Errorf("given %s: got a tolerance of %g, want a finite one of 0 or more: sheet.PlusMinus takes it as a size without a sign", name, tolerance)
		}
		if tolerance > 0 {
			out.Givens = append(out.Givens, outcome.Tolerance{Given: name, Value: prog.Givens[name], PlusMinus: tolerance})
		}
	}
	for _, e := range base.Entries {
		if e.Tolerance == nil || varied[e.Site] {
			continue
		}
		if name := nameAt(plan, e.Site); !slices.Contains(out.Unvaried, name) {
			out.Unvaried = append(out.Unvaried, name)
		}
	}
	if len(out.Givens) == 0 {
		return errors.New("tolerances: no given states one: write it as r := sheet.PlusMinus(300*units.Mm, 5*units.Mm)")
	}
	return nil
}

// nameAt is the first name that a statement sets, else its line.
func nameAt(plan *check.Plan, site int) string {
	for _, c := range plan.Cells {
		for _, n := range c.Names {
			if n.Step.Stmt != nil && plan.Number(n.Step.Stmt) == site {
				return n.Ident
			}
		}
	}
	return fmt.Sprintf("line %d", plan.Sites[site].Range.Start.Line)
}

// hypercube is n points with d numbers each, from 0 to below 1. Of the n equal
// strata of each number every one holds just one point.
func hypercube(n, d int, random *rand.Rand) [][]float64 {
	points := make([][]float64, n)
	for i := range points {
		points[i] = make([]float64, d)
	}
	for k := range d {
		for i, stratum := range random.Perm(n) {
			v := (float64(stratum) + random.Float64()) / float64(n)
			end := float64(stratum+1) / float64(n)
			points[i][k] = min(v, math.Nextafter(end, 0)) // rounding must not carry it over
		}
	}
	return points
}

// weigh works out what the trials say about each check: the first is the
// notebook's own, then two for each given, then the samples.
func weigh(out *outcome.Toleranced, trials []trial) {
	alone, samples := trials[1:1+2*len(out.Givens)], trials[1+2*len(out.Givens):]
	for _, t := range trials {
		if t.fault != "" {
			out.Fault = t.fault
			break
		}
	}
	for _, t := range samples {
		if t.fault != "" {
			out.Faulted++
		}
	}
	for _, id := range allChecks(trials) {
		s := &outcome.Sensitivity{Check: id, Nominal: trials[0].checks[id], Least: math.NaN(), Greatest: math.NaN()}
		for k := range out.Givens {
			s.Effects = append(s.Effects, outcome.Effect{Low: alone[2*k].checks[id], High: alone[2*k+1].checks[id]})
		}
		for _, t := range samples {
			j := t.checks[id]
			switch {
			case !j.Known:
				s.Missing++
				continue
			case !j.Holds:
				s.Fails++
			}
			if u := j.Utilisation; !math.IsNaN(u) {
				s.Least, s.Greatest = least(s.Least, u), greatest(s.Greatest, u)
			}
		}
		out.Checks = append(out.Checks, s)
	}
}

// least and greatest take NaN as nothing yet.
func least(a, b float64) float64 {
	if math.IsNaN(a) {
		return b
	}
	return min(a, b)
}

func greatest(a, b float64) float64 {
	if math.IsNaN(a) {
		return b
	}
	return max(a, b)
}
