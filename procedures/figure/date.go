package figure

import "wetside/procedures/unit"

// GivenDate is a day that somebody wrote down, at its place in the source.
func GivenDate(d unit.Date, at Where, by Origin, name string) Figure[unit.Days] {
	return GivenNumber(unit.Days(d.Number()), d.String(), at, by, name)
}

// Today is the day that a binder is made for, as an input.
func Today(d unit.Date) Figure[unit.Days] {
	f := Constant(unit.Days(d.Number()), "today, "+d.String(), "the day this binder is made for", Standard)
	f.ref.Text = d.String()
	return f
}

// ShowDate prints a number of days as the date it is.
func ShowDate(f Figure[unit.Days]) Figure[unit.Days] {
	if f.rec.broken() {
		return f
	}
	d := unit.DateNumber(int(unit.Snap(float64(f.Value)))).String()
	f.ref.Text, f.ref.Unit = d, ""
	return f.face(func(p *Face) { p.Kind, p.Date, p.Shown, p.Rounded, p.Unit, p.plain = KindDate, d, d, d, "", false })
}

// DeclareDate enters a day that somebody wrote down as a figure of its own.
func DeclareDate(l *Ledger, id string, g Figure[unit.Days]) *Record {
	day, in := g.ref.Text, g.ref
	return l.Enter(Of(Core{ID: id, Value: float64(g.Value), Low: float64(g.Low), High: float64(g.High),
		Inputs: []*InputRef{&in}, Origin: g.ref.Origin},
		Face{Kind: KindDate, Name: g.ref.Name, Date: day, Shown: day, Rounded: day,
			Round: Rounding{Rule: "as declared"}}))
}
