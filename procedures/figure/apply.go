package figure

import (
	"slices"
	"strings"

	"wetside/procedures/unit"
)

// Declared is a formula with its function: what the tests walk to hold the
// text of every formula against its code.
type Declared interface {
	Spec() *Formula
	Call(x []float64) float64
	// Units are those in which the result and the terms count, by their types; of a
	// formula that works on a list, the list has one.
	Units() (result string, terms []string)
}

var registered []Declared

// Register notes a formula where it is declared, so that no check can miss it. It is
// called when a package is loaded, and never later.
func Register[F Declared](f F) F {
	registered = append(registered, f)
	return f
}

// Registered lists the formulas of every package that is loaded, by their ids.
func Registered() []Declared {
	out := slices.Clone(registered)
	slices.SortFunc(out, func(a, b Declared) int { return strings.Compare(a.Spec().ID, b.Spec().ID) })
	return out
}

// F1 to F5 are formulas of one to five typed inputs. The types make a mistaken
// unit a mistake that does not compile.
type (
	// F1 has one input.
	F1[R, A unit.Kind] struct {
		Formula
		Go func(A) R
	}
	// F2 has two inputs.
	F2[R, A, B unit.Kind] struct {
		Formula
		Go func(A, B) R
	}
	// F3 has three inputs.
	F3[R, A, B, C unit.Kind] struct {
		Formula
		Go func(A, B, C) R
	}
	// F4 has four inputs.
	F4[R, A, B, C, D unit.Kind] struct {
		Formula
		Go func(A, B, C, D) R
	}
	// F5 has five inputs.
	F5[R, A, B, C, D, E unit.Kind] struct {
		Formula
		Go func(A, B, C, D, E) R
	}
)

// Spec returns the declaration.
func (f *F1[R, A]) Spec() *Formula { return &f.Formula }

// Spec returns the declaration.
func (f *F2[R, A, B]) Spec() *Formula { return &f.Formula }

// Spec returns the declaration.
func (f *F3[R, A, B, C]) Spec() *Formula { return &f.Formula }

// Spec returns the declaration.
func (f *F4[R, A, B, C, D]) Spec() *Formula { return &f.Formula }

// Spec returns the declaration.
func (f *F5[R, A, B, C, D, E]) Spec() *Formula { return &f.Formula }

// Units are those of the types.
func (f *F1[R, A]) Units() (string, []string) { return unit.UnitOf[R](), []string{unit.UnitOf[A]()} }

// Units are those of the types.
func (f *F2[R, A, B]) Units() (string, []string) {
	return unit.UnitOf[R](), []string{unit.UnitOf[A](), unit.UnitOf[B]()}
}

// Units are those of the types.
func (f *F3[R, A, B, C]) Units() (string, []string) {
	return unit.UnitOf[R](), []string{unit.UnitOf[A](), unit.UnitOf[B](), unit.UnitOf[C]()}
}

// Units are those of the types.
func (f *F4[R, A, B, C, D]) Units() (string, []string) {
	return unit.UnitOf[R](), []string{unit.UnitOf[A](), unit.UnitOf[B](), unit.UnitOf[C](), unit.UnitOf[D]()}
}

// Units are those of the types.
func (f *F5[R, A, B, C, D, E]) Units() (string, []string) {
	return unit.UnitOf[R](), []string{unit.UnitOf[A](), unit.UnitOf[B](), unit.UnitOf[C](), unit.UnitOf[D](),
		unit.UnitOf[E]()}
}

// Units are those of the types.
func (f *FN[R, A]) Units() (string, []string) { return unit.UnitOf[R](), []string{unit.UnitOf[A]()} }

// Call works the formula out on plain numbers, in the units of its terms.
func (f *F1[R, A]) Call(x []float64) float64 { return float64(f.Go(A(x[0]))) }

// Call works the formula out on plain numbers, in the units of its terms.
func (f *F2[R, A, B]) Call(x []float64) float64 { return float64(f.Go(A(x[0]), B(x[1]))) }

// Call works the formula out on plain numbers, in the units of its terms.
func (f *F3[R, A, B, C]) Call(x []float64) float64 { return float64(f.Go(A(x[0]), B(x[1]), C(x[2]))) }

// Call works the formula out on plain numbers, in the units of its terms.
func (f *F4[R, A, B, C, D]) Call(x []float64) float64 {
	return float64(f.Go(A(x[0]), B(x[1]), C(x[2]), D(x[3])))
}

// Call works the formula out on plain numbers, in the units of its terms.
func (f *F5[R, A, B, C, D, E]) Call(x []float64) float64 {
	return float64(f.Go(A(x[0]), B(x[1]), C(x[2]), D(x[3]), E(x[4])))
}

func apply[R unit.Kind](d Declared, id string, in ...Input) Figure[R] {
	x := make([]float64, len(in))
	spread := false
	for i, input := range in {
		x[i] = input.best()
		low, high := input.bounds()
		spread = spread || low != high
	}
	f := derived(id, d.Spec(), R(d.Call(x)), in...)
	if spread && !f.rec.broken() {
		low, high := propagate(d.Call, in)
		f = f.WithBounds(R(low), R(high))
	}
	return f
}

// Of works the formula out, keeping the working under the id.
func (f *F1[R, A]) Of(id string, a Figure[A]) Figure[R] { return apply[R](f, id, a) }

// Of works the formula out, keeping the working under the id.
func (f *F2[R, A, B]) Of(id string, a Figure[A], b Figure[B]) Figure[R] {
	return apply[R](f, id, a, b)
}

// Of works the formula out, keeping the working under the id.
func (f *F3[R, A, B, C]) Of(id string, a Figure[A], b Figure[B], c Figure[C]) Figure[R] {
	return apply[R](f, id, a, b, c)
}

// Of works the formula out, keeping the working under the id.
func (f *F4[R, A, B, C, D]) Of(id string, a Figure[A], b Figure[B], c Figure[C], d Figure[D]) Figure[R] {
	return apply[R](f, id, a, b, c, d)
}

// Of works the formula out, keeping the working under the id.
func (f *F5[R, A, B, C, D, E]) Of(id string, a Figure[A], b Figure[B], c Figure[C], d Figure[D],
	e Figure[E]) Figure[R] {
	return apply[R](f, id, a, b, c, d, e)
}

// FN is a formula of any number of inputs of one type; its text works on the
// list, as in "sum(x)".
type FN[R, A unit.Kind] struct {
	Formula
	Go func([]A) R
}

// Spec returns the declaration.
func (f *FN[R, A]) Spec() *Formula { return &f.Formula }

// Call works the formula out on plain numbers, in the units of its terms.
func (f *FN[R, A]) Call(x []float64) float64 {
	typed := make([]A, len(x))
	for i, v := range x {
		typed[i] = A(v)
	}
	return float64(f.Go(typed))
}

// Of works the formula out, keeping the working under the id. Formulas of a
// list grow with each of its values, so the lowest of all give the lowest.
func (f *FN[R, A]) Of(id string, in ...Figure[A]) Figure[R] {
	inputs := make([]Input, len(in))
	x, low, high := make([]float64, len(in)), make([]float64, len(in)), make([]float64, len(in))
	spread := false
	for i, fig := range in {
		inputs[i] = fig
		x[i], low[i], high[i] = float64(fig.Value), float64(fig.Low), float64(fig.High)
		spread = spread || low[i] != high[i]
	}
	out := derived(id, f.Spec(), R(f.Call(x)), inputs...)
	if spread && !out.rec.broken() {
		out = out.WithBounds(R(f.Call(low)), R(f.Call(high)))
	}
	return out
}

// Total adds a list of one kind: the function of formulas whose text is a sum.
func Total[T unit.Kind](x []T) T {
	var sum T
	for _, v := range x {
		sum += v
	}
	return sum
}
