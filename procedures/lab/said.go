package lab

import (
	"strconv"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// provenance is what a declared value carries beside itself: where it stands, who
// vouches for it, and of a default of the program, why it is that. The zero value
// belongs to what nobody has written.
type provenance struct {
	_     [0]func() // two values may say the same at different places: == is not to compare them
	where figure.Where
	by    figure.Origin
	lab   bool   // somebody in the lab, or the library, has written it
	why   string // where a default of the program comes from
}

// Where is the place of the value: a key that stands in that file. It is empty
// where nobody has written the value.
func (p provenance) Where() figure.Where { return p.where }

// By is who vouches for the value: the word of its file under [origin], else the
// house; of a default, the program.
func (p provenance) By() figure.Origin {
	switch {
	case p.lab:
		return p.by
	case p.why != "":
		return figure.Default
	}
	return figure.House
}

// Written reports whether the lab, or the library, has said it: it is false for a
// default of the program.
func (p provenance) Written() bool { return p.lab }

func (p *provenance) place(where figure.Where, by figure.Origin) {
	p.where, p.by, p.lab = where, by, true
}

// number makes the figure of a declared number that is no quantity of its own.
func number[T unit.Kind](p provenance, v T, text, name string) figure.Figure[T] {
	if p.why != "" {
		return figure.DefaultOf(v, text, name, p.why)
	}
	return figure.GivenNumber(v, text, p.where, p.By(), name)
}

// Said is a declared quantity that carries its place and who vouches for it. It
// reads from a file as the quantity inside does.
type Said[T unit.Kind] struct {
	unit.Quantity[T]
	provenance
}

// Figure is the quantity as a figure to work from. It must not be called on one
// that nobody has written and that has no default.
func (s Said[T]) Figure(name string) figure.Figure[T] {
	if s.why != "" {
		return figure.DefaultOf(s.Value(), s.Text(), name, s.why)
	}
	return figure.Given(s, s.where, s.By(), name)
}

// OrDefault is what was said, else a default of the program, which is nobody's
// word and stands nowhere in the lab's files; why says where it comes from.
func (s Said[T]) OrDefault(text, why string) Said[T] {
	if s.Given() {
		return s
	}
	return Said[T]{unit.MustParse[T](text), provenance{why: why}}
}

// Say is a quantity that no file says: text in a test or in the program itself.
func Say[T unit.Kind](text string) Said[T] { return Said[T]{Quantity: unit.MustParse[T](text)} }

// SaidCount is a declared count with its place.
type SaidCount struct {
	Count
	provenance
}

// Given reports whether it was written.
func (s SaidCount) Given() bool { return s.Count > 0 }

// String prints the count as its digits.
func (s SaidCount) String() string { return strconv.Itoa(int(s.Count)) }

// Figure is the count as a figure to work from.
func (s SaidCount) Figure(name string) figure.Figure[unit.Factor] {
	return number(s.provenance, unit.Factor(s.Count), s.String(), name)
}

// OrDefault is what was said, else a default of the program.
func (s SaidCount) OrDefault(text, why string) SaidCount {
	if s.Given() {
		return s
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		panic("lab: the default " + text + " is no count")
	}
	return SaidCount{Count(n), provenance{why: why}}
}

// SaidLife is a declared life with its place.
type SaidLife struct {
	unit.Life
	provenance
}

// Figure is the life as a figure to work from, counted in the unit it was written in.
func (s SaidLife) Figure(name string) figure.Figure[unit.Factor] {
	return number(s.provenance, unit.Factor(s.Number()), s.Text(), name)
}

// OrDefault is what was said, else a default of the program.
func (s SaidLife) OrDefault(text, why string) SaidLife {
	if s.Given() {
		return s
	}
	out := SaidLife{provenance: provenance{why: why}}
	if err := out.UnmarshalText([]byte(text)); err != nil {
		panic(err)
	}
	return out
}

// SaidDate is a declared day with its place.
type SaidDate struct {
	unit.Date
	provenance
}

// Given reports whether it was written.
func (s SaidDate) Given() bool { return !s.IsZero() }

// Figure is the day as a figure to work from.
func (s SaidDate) Figure(name string) figure.Figure[unit.Days] {
	return figure.GivenDate(s.Date, s.where, s.By(), name)
}

// SaidDilution is a declared dilution with its place.
type SaidDilution struct {
	unit.Dilution
	provenance
}

// Figures are both parts of the dilution as figures to work from.
func (s SaidDilution) Figures() (solution, water figure.Figure[unit.Factor]) {
	return number(s.provenance, unit.Factor(s.Stock.Float()), s.Text(), "parts of the solution"),
		number(s.provenance, unit.Factor(s.Water.Float()), s.Text(), "parts of water")
}

// SaidPrice is a declared price with its place.
type SaidPrice struct {
	unit.Price
	provenance
}

// FigurePerL is the price of a litre as a figure to work from, or false if it is
// not by volume.
func (s SaidPrice) FigurePerL(name string) (figure.Figure[unit.MoneyPerL], bool) {
	perL, ok := s.PerL()
	return number(s.provenance, perL, s.Text(), name), ok
}

// FigurePerKg is the price of a kilogram as a figure to work from, or false if it
// is not by mass.
func (s SaidPrice) FigurePerKg(name string) (figure.Figure[unit.MoneyPerKg], bool) {
	perKg, ok := s.PerKg()
	return number(s.provenance, perKg, s.Text(), name), ok
}

// FigureWhole is the price of the whole thing as a figure to work from, or false if it
// is by mass or volume.
func (s SaidPrice) FigureWhole(name string) (figure.Figure[unit.Money], bool) {
	whole, ok := s.Whole()
	return number(s.provenance, whole, s.Text(), name), ok
}

// SaidNumber is a declared whole number with its place; it may be zero.
type SaidNumber struct {
	N       int
	written bool
	provenance
}

// Given reports whether it was written.
func (s SaidNumber) Given() bool { return s.written }

// SayNumber is a number that no file says: one in a test or in the program itself.
func SayNumber(n int) SaidNumber { return SaidNumber{N: n, written: true} }

// Figure is the number as a figure to work from.
func (s SaidNumber) Figure(name string) figure.Figure[unit.Factor] {
	return number(s.provenance, unit.Factor(s.N), strconv.Itoa(s.N), name)
}

// Inside is what the number is read as: any whole number that a file may hold.
func (s *SaidNumber) Inside() any { return &s.N }

// UnmarshalTOML takes the number that the file holds.
func (s *SaidNumber) UnmarshalTOML(v any) error {
	n, ok := v.(int64)
	if !ok {
		return &unit.Error{Code: "shape", What: "expected a whole number",
			Hint: "write a whole number without quotes, for example 2"}
	}
	*s = SaidNumber{N: int(n), written: true}
	return nil
}

// SaidText is declared words with their place.
type SaidText struct {
	Text string
	provenance
}

// Given reports whether it was written.
func (s SaidText) Given() bool { return s.Text != "" }

// Inside is what the words are read as: any text that a file may hold.
func (s *SaidText) Inside() any { return &s.Text }

// UnmarshalTOML takes the text that the file holds.
func (s *SaidText) UnmarshalTOML(v any) error {
	text, ok := v.(string)
	if !ok {
		return &unit.Error{Code: "shape", What: "expected text", Hint: "put it in quotes"}
	}
	*s = SaidText{Text: text}
	return nil
}

// Amount is a declared mass or volume with its place. One of the two is given.
type Amount struct {
	Mass   Said[unit.Mass]
	Volume Said[unit.Volume]
}

// Given reports whether it was written.
func (a Amount) Given() bool { return a.Mass.Given() || a.Volume.Given() }

// Text returns the amount as written.
func (a Amount) Text() string { return a.Mass.Text() + a.Volume.Text() }

// Where is the place of the amount; it is empty where nobody has written it.
func (a Amount) Where() figure.Where {
	if a.Mass.Given() {
		return a.Mass.Where()
	}
	return a.Volume.Where()
}

// UnmarshalText reads a mass or a volume.
func (a *Amount) UnmarshalText(b []byte) error {
	var got unit.Amount
	if err := got.UnmarshalText(b); err != nil {
		return err
	}
	*a = Amount{Said[unit.Mass]{Quantity: got.Mass}, Said[unit.Volume]{Quantity: got.Volume}}
	return nil
}
