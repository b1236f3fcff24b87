package work

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Cold is a substance that may come out of a solution on a cold shelf.
type Cold = mix.Cold

// Life is how long a strength keeps in one state of its vessel.
type Life struct {
	// State is the key of the state, such as "low", and Word what a label calls it.
	State, Word string
	Time        *figure.Record
}

// Limit is one limit that ends a strength, and its words as they are printed.
type Limit struct {
	lab.Limit
	Text *figure.Record
}

// keeping is the stage of how long every strength keeps, and of what spoils it in the
// cold.
func (w *Work) keeping() {
	for _, b := range w.Baths {
		b.Lives = w.livesOf(b.Bath)
		b.Cold = w.mix.ColdShelf(w.mix.Made(b.Bath))
		if len(b.Bases) == 0 {
			b.Limits = w.limitsOf(b.Bath)
		}
	}
}

// livesOf enters how long a strength keeps.
func (w *Work) livesOf(b lab.Bath) []Life {
	k, key := b.Keeps()
	return w.livesIn(k, b.Ref(), "keeps.", b.Def(), key)
}

// livesIn enters the lives that are written under a key.
func (w *Work) livesIn(k lab.Keeps, subject, what string, d lab.Def, key string) []Life {
	var out []Life
	for _, s := range []struct {
		state, word string
		life        unit.Life
	}{{"full", "full", k.Full.Life}, {"part", "opened", k.Part.Life}, {"low", "below half", k.Low.Life},
		{"tray", "in the tray", k.Tray.Life}, {"poured", "poured", k.Poured.Life}} {
		if s.life.Given() {
			out = append(out, Life{s.state, s.word, w.life(figure.ID(subject, what+s.state), d, key+s.state, s.life,
				s.word)})
		}
	}
	return out
}

// Life finds how long a strength keeps in one state; nil where nobody has written it.
func (b *Bath) Life(state string) *figure.Record {
	for _, l := range b.Lives {
		if l.State == state {
			return l.Time
		}
	}
	return nil
}

// limitsOf enters the limits that end a strength.
func (w *Work) limitsOf(b lab.Bath) []Limit {
	d := b.Decl()
	if d == nil {
		return nil
	}
	var out []Limit
	for i, l := range d.Limits {
		key := fmt.Sprintf("strength.%s.limits[%d].most", b.Strength, i)
		by, _ := w.lab.OriginOf(b.Def(), key)
		in := &figure.InputRef{Name: "a limit by " + string(l.By), Where: b.Def().At(key), Text: l.Most.Text(),
			Origin: by}
		text := w.text(figure.ID(b.Ref(), fmt.Sprintf("limit.%d", i+1)), "a limit: by "+string(l.By), l.Spoken(), by,
			[]*figure.InputRef{in})
		out = append(out, Limit{l, text})
	}
	return out
}
