package lab

import (
	"fmt"
	"math/big"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

func (c *checker) batch(d *Batch) {
	c.origins(d.Def)
	switch {
	case d.ID == "index" || d.ID == "sheet" || d.ID == "do-not-use" || strings.HasPrefix(d.ID, "drum-") ||
		strings.HasPrefix(d.ID, "tray-") || strings.HasPrefix(d.ID, "shelf-"):
		c.problems = append(c.problems, Problem{At: d.At(""), OnKey: true, Code: "id", What: quoted(d.ID) +
			" is the name of a page of its own", Hint: "give the batch a number, for example 0301.toml"})
	case c.lab.chemical[d.ID] != nil || c.lab.product[d.ID] != nil || c.lab.solution[d.ID] != nil ||
		c.lab.material[d.ID] != nil:
		c.problems = append(c.problems, Problem{At: d.At(""), OnKey: true, Code: "id", What: quoted(d.ID) +
			" is also the name of something else here", Hint: "give the batch a number, for example 0301.toml"})
	}
	if d.Of == "" {
		c.missing(d.Def, "of", "a batch that does not say what it is", `"film-developer.stock"`)
	} else {
		b, problems := c.lab.Bath(d.Of, d.At("of"))
		c.problems = append(c.problems, problems...)
		c.divided(d, b)
	}
	if d.Mixed.IsZero() {
		c.missing(d.Def, "mixed", "a batch without the day it was mixed has no discard date", "2026-01-20")
	}
	if d.Place > 2 {
		c.add(d.At("place"), "range", fmt.Sprintf("there is no place %d: two baths stand at 1 and 2", d.Place),
			"write place = 1 for the first of two baths, 2 for the second")
	}
	positive(c, d.FreshClears)
	if d.StartSilver.Negative() {
		c.add(d.StartSilver.Where(), "range", fmt.Sprintf("%q: silver cannot be negative", d.StartSilver.Text()), `write "0 g/L" for a fresh bath`)
	}
	if c.filled(d) {
		c.log(d)
	}
}

// divided refuses a batch that was made of a part of a pack that may not be divided, or of
// more than its pack makes.
func (c *checker) divided(d *Batch, b Bath) {
	if b.Product == nil || b.Product.Makes == nil || b.Strength != b.Product.MadeStrength() ||
		b.Product.Makes.Divide == MayDivide {
		return
	}
	made, stock := d.Made.Amount, b.Product.Makes.Stock
	if !made.Positive() || !stock.Positive() || new(big.Rat).Quo(made.Exact(), stock.Exact()).IsInt() {
		return
	}
	c.add(made.Where(), "range", fmt.Sprintf("%s of %s: a pack makes %s, and nobody has said that it may be divided",
		made.Text(), b.Name(), stock.Text()),
		"powders settle apart, and the parts of a kit are meant for each other: make up whole packs, and keep the stock in small full bottles; of what may be divided, write divide = \"yes\" under [makes]")
}

// filled checks what was made and where it went, and reports whether the log
// can be held against it.
func (c *checker) filled(d *Batch) bool {
	before := len(c.problems)
	exact := func(q Said[unit.Volume]) {
		positive(c, q)
		if q.Positive() && q.Spread() {
			c.add(q.Where(), "quantity", fmt.Sprintf("%q: what stands in a bottle is one volume", q.Text()), `write one number, for example "500 mL"`)
		}
	}
	exact(d.Made.Amount)
	exact(d.Bottle)
	into := new(big.Rat)
	for _, q := range d.Made.Into {
		exact(q)
		if q.Given() {
			into.Add(into, q.Exact())
		}
	}
	switch {
	case d.Bottle.Given() && len(d.Made.Into) > 0:
		c.add(d.Bottle.Where(), "shape", "a batch has a bottle, or the bottles it was filled into, not both",
			"keep made.into, with the bottle of this file first")
	case d.PartOf != "":
		c.sister(d)
	case !d.Made.Amount.Given():
		c.missing(d.Def, "made", "a batch that does not say how much was made", `{ amount = "1 L", by = "initials" }`)
	}
	if len(c.problems) > before {
		return false
	}
	if d.PartOf == "" && d.Bottle.Given() && d.Bottle.Exact().Cmp(d.Made.Amount.Exact()) < 0 {
		c.add(d.Bottle.Where(), "range", fmt.Sprintf("a bottle of %s does not hold the %s that were made", d.Bottle.Text(), d.Made.Amount.Text()), `list the bottles: made = { amount = "1 L", into = ["500 mL", "500 mL"] }, and give each other bottle a file with part_of`)
	}
	if len(d.Made.Into) > 0 && into.Cmp(d.Made.Amount.Exact()) < 0 {
		c.add(d.At("made.into"), "range", fmt.Sprintf("the bottles do not hold the %s that were made",
			d.Made.Amount.Text()), "list every bottle it was filled into")
	}
	return len(c.problems) == before
}

// sister checks a bottle that was filled from another batch.
func (c *checker) sister(d *Batch) {
	at := d.At("part_of")
	if c.lab.Broken["shelf/"+d.PartOf] {
		return
	}
	of := c.lab.Batch(d.PartOf)
	switch {
	case of == d:
		c.add(at, "loop", "a bottle is not filled from itself",
			"name the batch it was filled from, or take part_of out")
	case of == nil:
		var ids []string
		for _, b := range c.lab.Batches {
			ids = append(ids, b.ID)
		}
		c.add(at, "reference", "there is no batch "+quoted(d.PartOf),
			Near(d.PartOf, ids, "write its file in shelf/, or correct the number"))
	case of.Of != d.Of || of.Mixed.Date != d.Mixed.Date:
		c.add(at, "shape", fmt.Sprintf("%s is %s, mixed on %s: this bottle says otherwise", d.PartOf, of.Of,
			of.Mixed), "bottles of one batch hold the same and were mixed on the same day")
	}
	if len(d.Made.Into) > 0 {
		c.add(d.At("made.into"), "shape", "a bottle that is part of a batch was not filled into others",
			"write its own size as bottle")
	}
	if !d.Made.Amount.Given() && !d.Bottle.Given() {
		c.missing(d.Def, "bottle", "a bottle that does not say what it holds", `"500 mL"`)
	}
}

// log walks the log in order: no day before the mixing or before the line
// above, never more out than there was, no level that rises by itself.
func (c *checker) log(d *Batch) {
	start := d.Start()
	rest := new(big.Rat).Set(start.Exact())
	last, level := d.Mixed.Date, 0
	for i, e := range d.Log {
		at := d.At(EntryKey(i))
		switch {
		case e.On.IsZero():
			c.add(at, "missing", "a line of the log without its day", "write on = 2026-02-28")
		case !d.Mixed.IsZero() && e.On.Before(d.Mixed.Date):
			c.add(e.On.Where(), "date", fmt.Sprintf("%s is before the batch was mixed (%s)", e.On, d.Mixed),
				"correct one of the two dates")
		case e.On.Before(last):
			c.add(e.On.Where(), "date", fmt.Sprintf("%s comes after a line of %s: the log is out of order", e.On,
				last), "write the lines in the order of their days")
		default:
			last = e.On.Date
		}
		c.drew(e, rest, start)
		word(c, e.Level, at.At("level"))
		if n := rank(e.Level); n >= 0 {
			if n < level {
				c.add(at.At("level"), "range", fmt.Sprintf("%q after %q: a bottle does not fill itself", e.Level,
					Levels[level]), "correct one of the two")
			}
			level = max(level, n)
		}
		if e.Place > 2 {
			c.add(at.At("place"), "range", fmt.Sprintf("there is no place %d: two baths stand at 1 and 2", e.Place),
				"write place = 1 for the first of two baths, 2 for the second")
		}
		positive(c, e.Cleared)
		c.worked(e.Worked, at)
	}
}

// drew takes a draw from the rest.
func (c *checker) drew(e Entry, rest *big.Rat, start Said[unit.Volume]) {
	if !e.Drew.Given() {
		return
	}
	at := e.Drew.Where()
	if e.Drew.Spread() || !e.Drew.Positive() {
		c.add(at, "range", fmt.Sprintf("%q is not an amount that was taken out", e.Drew.Text()), `write what was taken out for good, for example "120 mL"; what goes back into its bottle is no draw`)
		return
	}
	rest.Sub(rest, e.Drew.Exact())
	if rest.Sign() < 0 {
		c.add(at, "range", fmt.Sprintf("%q is more than there was: only %s are left of %s", e.Drew.Text(),
			millilitres(new(big.Rat).Add(rest, e.Drew.Exact())), start.Text()), "correct the draws, or what was made")
		rest.SetInt64(0)
	}
}

func millilitres(x *big.Rat) string {
	s := x.FloatString(1)
	return strings.TrimSuffix(s, ".0") + " ml"
}

// rank is the place of a level among Levels, or -1.
func rank(level Level) int {
	for i, l := range Levels {
		if l == level {
			return i
		}
	}
	return -1
}

func (c *checker) worked(list PiecesList, at figure.Where) {
	for i, p := range list {
		at := at.At(fmt.Sprintf("worked[%d]", i))
		if p.Count == 0 {
			c.add(at, "range", fmt.Sprintf("%q: none was worked", p.Text()), "write how many, or take the entry out")
		}
		if p.Of != "" {
			_, _, problems := c.lab.Piece(p.Of, at)
			c.problems = append(c.problems, problems...)
		}
	}
}
