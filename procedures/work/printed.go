package work

import (
	"fmt"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/timing"
	"wetside/procedures/unit"
)

// temperature enters a declared temperature or range of temperatures.
func (w *Work) temperature(id string, d lab.Def, key string, q unit.Quantity[unit.Temperature],
	name string) *figure.Record {
	by, _ := w.lab.OriginOf(d, key)
	shown := unit.Short(float64(q.Value()))
	if q.Spread() {
		shown = unit.Short(float64(q.Low())) + "–" + unit.Short(float64(q.High()))
	}
	return figure.Declare(w.mix.Book, id, figure.KindTemperature, figure.Given(q, d.At(key), by, name), shown, "°C")
}

// life enters how long something keeps.
func (w *Work) life(id string, d lab.Def, key string, l unit.Life, name string) *figure.Record {
	by, _ := w.lab.OriginOf(d, key)
	g := figure.GivenNumber(unit.Factor(l.Number()), l.Text(), d.At(key), by, name)
	return figure.Declare(w.mix.Book, id, figure.KindCount, g, unit.Short(l.Number()), l.Word())
}

// houseLife enters one of the house's rules that is a time.
func (w *Work) houseLife(key string, life lab.SaidLife, name string) *figure.Record {
	g := life.Figure(name)
	return figure.Declare(w.mix.Book, figure.ID("house", strings.ReplaceAll(key, "_", "-")), figure.KindCount, g,
		unit.Short(life.Number()), life.Word())
}

// worksAt enters a temperature that somebody works at.
func (w *Work) worksAt(at float64) *figure.Record {
	g := figure.Constant(unit.Temperature(at), "temperature of the bath", "", figure.Standard)
	return figure.Declare(w.mix.Book, figure.ID("degrees", timing.Degrees(at)), figure.KindTemperature, g,
		unit.Format(at, unit.NewDecimal(1, 1)), "°C")
}

// count enters a number that the program counts itself.
func (w *Work) count(id string, n int, word, name string) *figure.Record {
	return figure.Declare(w.mix.Book, id, figure.KindCount, figure.Constant(unit.Factor(n), name, "", figure.House),
		fmt.Sprint(n), word)
}

// text enters words that a card prints where other cards or choices have a figure.
func (w *Work) text(id, name, shown string, by figure.Origin, in []*figure.InputRef,
	from ...*figure.Record) *figure.Record {
	return w.mix.Book.Enter(figure.Of(figure.Core{ID: id, Inputs: in, Origin: by},
		figure.Face{Kind: figure.KindText, Name: name, Shown: shown, Rounded: shown,
			Round: figure.Rounding{Rule: "as written"}}, from...))
}

// word enters a word that stands where the other choices of a card have a figure.
func (w *Work) word(key, shown string) *figure.Record {
	return w.text(figure.ID("word", key), "no figure here", shown, figure.Standard, nil)
}
