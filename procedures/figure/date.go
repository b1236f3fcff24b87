package figure

import "wetside/procedures/unit"

// GivenDate is a day that somebody wrote down, at its place in the source.
func GivenDate(d unit.Date, at Where, by Origin, name string) Figure[unit.Days] {
	return GivenNumber(unit.Days(d.Number()), d.String(), at, by, name)
}

// ShowDate prints a number of days as the date it is.
func ShowDate(f Figure[unit.Days]) Figure[unit.Days] {
	if f.rec.broken() {
		return f
	}
	d := unit.DateNumber(int(unit.Snap(float64(f.Value)))).String()
	f.rec.Kind, f.rec.Date, f.rec.Shown, f.rec.Rounded, f.rec.Unit = KindDate, d, d, d, ""
	f.ref.Text, f.ref.Unit = d, ""
	return f
}

// DeclareDate enters a day that somebody wrote down as a figure of its own.
func DeclareDate(l *Ledger, id string, g Figure[unit.Days]) string {
	return l.enter(&Record{
		ID: id, Kind: KindDate, Name: g.ref.Name, Value: float64(g.Value), Date: g.ref.Text, Shown: g.ref.Text, Rounded: g.ref.Text,
		Low: float64(g.Low), High: float64(g.High), Round: Rounding{Rule: "as declared"}, Inputs: []InputRef{g.ref}, Origin: g.ref.Origin,
	})
}
