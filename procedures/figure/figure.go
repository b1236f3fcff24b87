package figure

import (
	"fmt"
	"math"
	"strconv"

	"wetside/procedures/unit"
)

// Figure is a number with its unit and its working. Value, Low and High are
// unrounded.
type Figure[T unit.Kind] struct {
	Value     T
	Low, High T
	rec       *Record
	ref       InputRef
}

// ID is the figure's id, empty for a declared value or a constant.
func (f Figure[T]) ID() string {
	if f.rec == nil {
		return ""
	}
	return f.rec.ID
}

// Origin is who vouches for the figure.
func (f Figure[T]) Origin() Origin { return f.ref.Origin }

// Input is anything a formula can work from.
type Input interface {
	input() (InputRef, *Record)
	best() float64
	bounds() (low, high float64)
}

func (f Figure[T]) input() (InputRef, *Record) { return f.ref, f.rec }

func (f Figure[T]) best() float64 { return float64(f.Value) }

func (f Figure[T]) bounds() (float64, float64) { return float64(f.Low), float64(f.High) }

// Given is a value somebody declared, at its place in the source.
func Given[T unit.Kind](q unit.Declared[T], at Where, by Origin, name string) Figure[T] {
	return Figure[T]{Value: q.Value(), Low: q.Low(), High: q.High(), ref: InputRef{
		Name: name, Where: at, Value: float64(q.Value()), Unit: unit.UnitOf[T](), Text: q.Text(), Origin: by,
	}}
}

// GivenNumber is a declared number that is not a quantity of its own, such as
// a part of a dilution or a count.
func GivenNumber[T unit.Kind](v T, text string, at Where, by Origin, name string) Figure[T] {
	return Figure[T]{Value: v, Low: v, High: v, ref: InputRef{
		Name: name, Where: at, Value: float64(v), Unit: unit.UnitOf[T](), Text: text, Origin: by,
	}}
}

// Constant is a value of nature or of the trade, with its source.
func Constant[T unit.Kind](v T, name, source string, by Origin) Figure[T] {
	return Figure[T]{Value: v, Low: v, High: v, ref: InputRef{
		Name: name, Constant: name, Value: float64(v), Unit: unit.UnitOf[T](), Source: source, Origin: by,
	}}
}

// DefaultOf is a rule that the program brings for where the lab has written
// none; why says where it comes from.
func DefaultOf[T unit.Kind](v T, text, name, why string) Figure[T] {
	return Figure[T]{Value: v, Low: v, High: v, ref: InputRef{
		Name: name, Constant: name, Value: float64(v), Unit: unit.UnitOf[T](), Text: text,
		Source: "default of the program; " + why, Origin: Default,
	}}
}

// WithBounds returns the figure with other bounds.
func (f Figure[T]) WithBounds(low, high T) Figure[T] {
	f.Low, f.High = low, high
	return f.core(func(c *Core) { c.Low, c.High, c.HasLow = float64(low), float64(high), low != high })
}

// core is the figure with another core: a figure that is still being made.
func (f Figure[T]) core(change func(*Core)) Figure[T] {
	if f.rec != nil {
		c := *f.rec.Core
		change(&c)
		f.rec = &Record{Core: &c, Face: f.rec.Face}
	}
	return f
}

// face is the figure in another printed form.
func (f Figure[T]) face(change func(*Face)) Figure[T] {
	f.rec = f.rec.with(change)
	return f
}

// Cast is a declared value counted as another type, such as a volume for each
// roll where one roll is meant: an input for a formula, never shown itself.
func Cast[R, T unit.Kind](f Figure[T]) Figure[R] {
	out := Figure[R]{Value: R(f.Value), Low: R(f.Low), High: R(f.High), rec: f.rec, ref: f.ref}
	out.ref.Unit = unit.UnitOf[R]()
	return out
}

// WithValue is a declared value counted in another unit of the same type, such as
// weeks as months: its text and its place stay.
func (f Figure[T]) WithValue(v T) Figure[T] {
	f.Value, f.Low, f.High, f.ref.Value = v, v, v, float64(v)
	return f
}

// Bounds is an uncertainty worked out elsewhere, such as from the tolerance of
// a cylinder: half of the width on both sides.
func (f Figure[T]) Bounds(half T) Figure[T] { return f.WithBounds(f.Value-half, f.Value+half) }

// Show rounds the figure to a multiple of step by the rule and prints it with
// the decimals step is written with. The figure's own value stays unrounded.
func (f Figure[T]) Show(kind Kind, step string, rule unit.Rule, device string) Figure[T] {
	d, err := unit.ParseDecimal(step)
	if err != nil {
		panic(err)
	}
	return f.ShowAs(kind, unit.Round(float64(f.Value), d.Float(), rule), d, rule, device)
}

// ShowSpan prints the figure as Show does, and as "5–15" where it is known only
// within bounds; those are rounded outwards.
func (f Figure[T]) ShowSpan(kind Kind, step string, rule unit.Rule) Figure[T] {
	d, err := unit.ParseDecimal(step)
	if err != nil {
		panic(err)
	}
	return f.ShowSpanAs(kind, d, rule, 1)
}

// ShowSpanAs is ShowSpan for what is printed in another unit: times is how many of that
// unit make one of the type's, and step counts in it.
func (f Figure[T]) ShowSpanAs(kind Kind, step unit.Decimal, rule unit.Rule, times float64) Figure[T] {
	round := func(v T, rule unit.Rule) float64 { return unit.Round(float64(v)*times, step.Float(), rule) }
	f = f.ShowAs(kind, round(f.Value, rule), step, rule, "")
	if f.Low == f.High || f.rec.Refused() {
		return f
	}
	return f.face(func(p *Face) {
		p.Shown = unit.Format(round(f.Low, unit.Down), step) + "–" + unit.Format(round(f.High, unit.Up), step)
	})
}

// ShowAs prints a value that was rounded by other means, such as a ladder.
func (f Figure[T]) ShowAs(kind Kind, rounded float64, step unit.Decimal, rule unit.Rule, device string) Figure[T] {
	return f.face(func(p *Face) {
		p.Kind, p.plain = kind, false
		if f.rec.broken() {
			return
		}
		p.Shown = unit.Format(rounded, step)
		p.Rounded, p.Round = p.Shown, Rounding{Rule: rule.String(), Step: step.String(), Device: device}
	})
}

// RoundedTo records the step of the device where fewer decimals are printed
// than the step has.
func (f Figure[T]) RoundedTo(step unit.Decimal) Figure[T] {
	return f.face(func(p *Face) { p.Round.Step = step.String() })
}

// ShowTime rounds a time to whole steps of seconds and prints it as m:ss.
func ShowTime(f Figure[unit.Seconds], step float64, rule unit.Rule) Figure[unit.Seconds] {
	return f.face(func(p *Face) {
		p.Kind, p.plain = KindTime, false
		if f.rec.broken() {
			return
		}
		s := unit.Round(float64(f.Value), step, rule)
		p.Shown, p.Rounded = Clock(s), strconv.FormatFloat(s, 'f', -1, 64)
		p.Round = Rounding{Rule: rule.String(), Step: strconv.FormatFloat(step, 'f', -1, 64) + " s"}
	})
}

// Clock prints seconds as m:ss, as darkroom clocks do.
func Clock(s float64) string {
	n := int(math.Round(s))
	return fmt.Sprintf("%d:%02d", n/60, n%60)
}

// Named sets what the figure is called on its working page and in lists.
func (f Figure[T]) Named(name string) Figure[T] {
	f.ref.Name = name
	return f.face(func(p *Face) { p.Name = name })
}

// As is the figure under another id, such as an amount that is wanted and cannot
// be measured.
func (f Figure[T]) As(id string) Figure[T] {
	f.ref.ID = id
	return f.core(func(c *Core) { c.ID = id })
}

// In sets the unit word printed with the figure where the trade uses another
// than the type's own; factor is how many of the type's units it holds.
func (f Figure[T]) In(word string) Figure[T] {
	return f.face(func(p *Face) { p.Unit = word })
}

// Counted prints the figure in another unit than its type's: factor is how many of
// that unit make one of the type's.
func (f Figure[T]) Counted(word string, factor float64) Figure[T] {
	return f.face(func(p *Face) { p.Unit, p.Times = word, factor })
}

// derived is a figure with an id that a formula or a rule worked out.
func derived[T unit.Kind](id string, formula *Formula, v T, in ...Input) Figure[T] {
	c := &Core{ID: id, Value: float64(v), Formula: formula, Source: formula.Source, Origin: formula.Origin,
		Inputs: make([]*InputRef, 0, len(in))}
	for i, input := range in {
		ref, parent := input.input()
		if i < len(formula.Terms) {
			ref.Symbol = formula.Terms[i].Symbol
			if ref.Name == "" {
				ref.Name = formula.Terms[i].Meaning
			}
		}
		c.Inputs = append(c.Inputs, &ref)
		c.Origin = Weakest(c.Origin, ref.Origin)
		if parent != nil {
			c.parents = append(c.parents, parent)
		}
	}
	face := Face{Kind: KindAmount, Name: formula.Name, Unit: unit.UnitOf[T](), plain: true}
	if finite(float64(v)) {
		c.Low, c.High = c.Value, c.Value
		face.Shown = strconv.FormatFloat(unit.Snap(c.Value), 'g', 6, 64)
		face.Rounded = face.Shown
	} else { // it stays refused, and so does all that is worked out from it
		face.Why = notFinite
	}
	return Figure[T]{Value: v, Low: v, High: v, rec: &Record{c, face},
		ref: InputRef{ID: id, Name: formula.Name, Value: c.Value, Unit: face.Unit, Origin: c.Origin}}
}

// notFinite is why a figure that no number can be given for is refused.
const notFinite = "what it is worked out from allows no number"

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// propagate carries one-sided bounds of the inputs through a formula by trying
// every corner; formulas here are monotonic in each input over its bounds.
func propagate(call func([]float64) float64, in []Input) (low, high float64) {
	x := make([]float64, len(in))
	low, high = math.Inf(1), math.Inf(-1)
	for corner := range 1 << len(in) {
		for i, input := range in {
			l, h := input.bounds()
			x[i] = l
			if corner&(1<<i) != 0 {
				x[i] = h
			}
		}
		if v := call(x); finite(v) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	return low, high
}

// Record is the figure as answers and pages hold it; nil for a declared value or a
// constant, which have no id.
func (f Figure[T]) Record() *Record { return f.rec }

// Best is the figure at its best value, where a doubt about it does not matter.
func (f Figure[T]) Best() Figure[T] {
	f.Low, f.High = f.Value, f.Value
	return f
}

// Called is the figure as an input under another name.
func (f Figure[T]) Called(name string) Figure[T] {
	f.ref.Name = name
	return f
}

// AsMeasured is the figure as an input at the value that the hands follow from there on,
// such as the amount that was measured or the time as it was rounded.
func (f Figure[T]) AsMeasured(v T) Figure[T] {
	f.Value, f.Low, f.High, f.ref.Value = v, v, v, float64(v)
	if f.rec != nil {
		f.ref.Text = f.rec.Shown
	}
	return f
}
