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
	bounds() (low, high float64)
}

func (f Figure[T]) input() (InputRef, *Record) { return f.ref, f.rec }

func (f Figure[T]) bounds() (float64, float64) { return float64(f.Low), float64(f.High) }

// Given is a value somebody declared, at its place in the source.
func Given[T unit.Kind](q unit.Quantity[T], at Where, by Origin, name string) Figure[T] {
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
		Name: name, Constant: name, Value: float64(v), Unit: unit.UnitOf[T](), Text: text, Source: "default of the program; " + why, Origin: Default,
	}}
}

// WithBounds returns the figure with other bounds.
func (f Figure[T]) WithBounds(low, high T) Figure[T] {
	f.Low, f.High = low, high
	if f.rec != nil {
		f.rec.Low, f.rec.High, f.rec.HasLow = float64(low), float64(high), low != high
	}
	return f
}

// Cast is a declared value counted as another type, such as a volume for each
// roll where one roll is meant. It must not be used on a figure that has a working
// of its own.
func Cast[R, T unit.Kind](f Figure[T]) Figure[R] {
	out := Figure[R]{Value: R(f.Value), Low: R(f.Low), High: R(f.High), ref: f.ref}
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
	f = f.Show(kind, step, rule, "")
	if f.Low == f.High {
		return f
	}
	if f.rec.Refused() {
		return f
	}
	d, err := unit.ParseDecimal(step)
	if err != nil {
		panic(err)
	}
	f.rec.Shown = unit.Format(unit.Round(float64(f.Low), d.Float(), unit.Down), d) + "–" + unit.Format(unit.Round(float64(f.High), d.Float(), unit.Up), d)
	return f
}

// ShowAs prints a value that was rounded by other means, such as a ladder.
func (f Figure[T]) ShowAs(kind Kind, rounded float64, step unit.Decimal, rule unit.Rule, device string) Figure[T] {
	f.rec.Kind = kind
	if f.rec.broken() {
		return f
	}
	f.rec.Shown = unit.Format(rounded, step)
	f.rec.Rounded = f.rec.Shown
	f.rec.Round = Rounding{Rule: rule.String(), Step: step.String(), Device: device}
	return f
}

// RoundedTo records the step of the device where fewer decimals are printed
// than the step has.
func (f Figure[T]) RoundedTo(step unit.Decimal) Figure[T] {
	f.rec.Round.Step = step.String()
	return f
}

// ShowTime rounds a time to whole steps of seconds and prints it as m:ss.
func ShowTime(f Figure[unit.Seconds], step float64, rule unit.Rule) Figure[unit.Seconds] {
	f.rec.Kind = KindTime
	if f.rec.broken() {
		return f
	}
	s := unit.Round(float64(f.Value), step, rule)
	f.rec.Shown = Clock(s)
	f.rec.Rounded = strconv.FormatFloat(s, 'f', -1, 64)
	f.rec.Round = Rounding{Rule: rule.String(), Step: strconv.FormatFloat(step, 'f', -1, 64) + " s"}
	return f
}

// Clock prints seconds as m:ss, as darkroom clocks do.
func Clock(s float64) string {
	n := int(math.Round(s))
	return fmt.Sprintf("%d:%02d", n/60, n%60)
}

// Named sets what the figure is called on its working page and in lists.
func (f Figure[T]) Named(name string) Figure[T] {
	f.rec.Name, f.ref.Name = name, name
	return f
}

// As is the figure under another id, such as an amount that is wanted and cannot
// be measured.
func (f Figure[T]) As(id string) Figure[T] {
	rec := *f.rec
	rec.ID = id
	f.rec, f.ref.ID = &rec, id
	return f
}

// In sets the unit word printed with the figure where the trade uses another
// than the type's own; factor is how many of the type's units it holds.
func (f Figure[T]) In(word string) Figure[T] {
	f.rec.Unit = word
	return f
}

// Counted records the figure in another unit than its type's, as a card prints
// it: factor is how many of that unit make one of the type's.
func (f Figure[T]) Counted(word string, factor float64) Figure[T] {
	f.rec.Value, f.rec.Low, f.rec.High, f.rec.Unit = f.rec.Value*factor, f.rec.Low*factor, f.rec.High*factor, word
	return f
}

// Derived is a figure with an id that a formula or a rule worked out.
func derived[T unit.Kind](id string, formula *Formula, v T, in ...Input) Figure[T] {
	rec := &Record{ID: id, Kind: KindAmount, Name: formula.Name, Value: float64(v), Unit: unit.UnitOf[T](), Formula: formula, Source: formula.Source, Origin: formula.Origin,
		Inputs: make([]InputRef, 0, len(in))}
	for i, input := range in {
		ref, parent := input.input()
		if i < len(formula.Terms) {
			ref.Symbol = formula.Terms[i].Symbol
			if ref.Name == "" {
				ref.Name = formula.Terms[i].Meaning
			}
		}
		rec.Inputs = append(rec.Inputs, ref)
		rec.Origin = Weakest(rec.Origin, ref.Origin)
		if parent != nil {
			rec.parents = append(rec.parents, parent)
		}
	}
	f := Figure[T]{Value: v, Low: v, High: v, rec: rec}
	f.ref = InputRef{ID: id, Name: formula.Name, Value: float64(v), Unit: rec.Unit, Origin: rec.Origin}
	if !finite(float64(v)) { // it stays refused, and so does all that is worked out from it
		rec.Why = notFinite
		return f
	}
	rec.Low, rec.High = float64(v), float64(v)
	rec.Shown = strconv.FormatFloat(unit.Snap(float64(v)), 'g', 6, 64)
	rec.Rounded = rec.Shown
	return f
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

// Record returns a copy of what the figure keeps of itself.
func (f Figure[T]) Record() Record {
	if f.rec == nil {
		return Record{}
	}
	return *f.rec
}

// WithInputValue returns the figure as an input of that value, such as the
// rounded time that the hands follow from there on.
func (f Figure[T]) WithInputValue(v float64) Figure[T] {
	f.ref.Value = v
	if f.rec != nil {
		f.ref.Text = f.rec.Shown
	}
	return f
}
