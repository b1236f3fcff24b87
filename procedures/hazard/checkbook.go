package hazard

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mixture"
)

// book checks how a book of rules names dangers: every class has words and a way in which
// it is known, and whatever speaks of a class or a statement speaks of one that there is.
func (c *checker) book(b *lab.RuleBook) {
	for i, t := range b.Classes {
		for j, r := range t.Class {
			c.row(b, t, r, b.At(fmt.Sprintf("classes[%d].class[%d]", i, j)))
		}
	}
	for _, code := range slices.Sorted(maps.Keys(b.Covers)) {
		at := b.At("covers." + code)
		c.code(code, at, true)
		for i, milder := range b.Covers[code] {
			c.code(milder, at.At(fmt.Sprintf("[%d]", i)), false)
		}
	}
	for i, d := range b.Drops {
		at := b.At(fmt.Sprintf("drops[%d]", i))
		c.pictogram(d.Pictogram, at.At("pictogram"))
		c.pictogram(d.Beside, at.At("beside"))
		c.list(d.Because, at.At("because"))
		c.list(d.Of, at.At("of"))
	}
	for i, a := range b.Advice {
		at := b.At(fmt.Sprintf("advice[%d]", i))
		if a.Code == "" || a.Say == "" {
			c.problems = append(c.problems, lab.Problem{At: at, Code: "hazard", What: "an advice without its code or its words", Hint: `write code = "P280" and say = "…"`})
		}
		for j, of := range a.Of {
			if !c.words.Asks(a, of) {
				c.problems = append(c.problems, lab.Problem{At: at.At(fmt.Sprintf("of[%d]", j)), Code: "hazard",
					What: fmt.Sprintf("no hazard class begins with %q", of), Hint: "write a class, or its first words"})
			}
		}
	}
	if b.Scheme != nil {
		c.schemeWords(b.Scheme, b.At("scheme"))
	}
	if b.Properties != nil {
		c.propertyWords(b.Properties, b.At("properties"))
	}
}

// row checks one class of a table.
func (c *checker) row(b *lab.RuleBook, t lab.ClassTable, r lab.ClassRow, at figure.Where) {
	wrong := func(key, what, hint string) {
		c.problems = append(c.problems, lab.Problem{At: at.At(key), Code: "hazard", What: what, Hint: hint})
	}
	if r.Word == "" {
		wrong("", "this class has no word", `write word = "…", as section 2 of a sheet writes class and category`)
		return
	}
	if have, ok := c.words.Class(r.Word); ok && !b.Library &&
		(have.Code != r.Code || have.Signal != r.Signal || have.Pictogram != r.Pictogram) {
		wrong("word", fmt.Sprintf("%s stands in the program's own rules already, with another label", r.Word),
			"leave it out here: what the program has of the law stays")
	}
	for _, code := range append([]string{r.Code}, r.With...) {
		if !c.worded(code) {
			wrong("", fmt.Sprintf("%s says %q on a label, and there are no words for that code", r.Word, code), `write the code, such as code = "H319", and its words under [statement]`)
		}
	}
	if r.Signal != "" && r.Signal != "Danger" && r.Signal != "Warning" {
		wrong("signal", fmt.Sprintf("%q is no signal word", r.Signal), `"Danger", "Warning", or leave it out`)
	}
	if r.Pictogram != "" {
		c.pictogram(r.Pictogram, at.At("pictogram"))
	}
	known := r.Known
	if known == "" {
		known = t.Known
	}
	if known != "opened" && known != "memory" {
		wrong("", "nobody says how the label of "+r.Word+" is known", `known = "opened" for what was read in the law, known = "memory" for what was not`)
	}
}

// worded reports a code that has words.
func (c *checker) worded(code string) bool {
	_, ok := c.words.Statement(code)
	return ok
}

// code checks the code of a statement.
func (c *checker) code(code string, at figure.Where, onKey bool) {
	if _, extra := c.words.Supplement(code); !extra && !c.worded(code) {
		c.problems = append(c.problems, lab.Problem{At: at, OnKey: onKey, Code: "hazard",
			What: fmt.Sprintf("there are no words for %q", code),
			Hint: "write them under [statement], or under [supplement] where it stands apart from classes"})
	}
}

// pictogram checks the number of a pictogram.
func (c *checker) pictogram(number string, at figure.Where) {
	if len(number) != len("GHS00") || !strings.HasPrefix(number, "GHS0") || number < "GHS01" || number > "GHS09" {
		c.problems = append(c.problems, lab.Problem{At: at, Code: "hazard",
			What: fmt.Sprintf("%q is no pictogram", number), Hint: "GHS01 to GHS09"})
	}
}

// propertyWords checks a list of what makes waste hazardous: what it gives are words of its own.
func (c *checker) propertyWords(s *lab.Scheme, at figure.Where) {
	own := *s
	own.Alone, own.Sums, own.Extremes = slices.Clone(s.Alone), slices.Clone(s.Sums), slices.Clone(s.Extremes)
	own.Hardest = nil
	called := func(word, key string, n ...any) {
		if _, ok := s.CalledBy(word); !ok {
			c.problems = append(c.problems, lab.Problem{At: at.At(fmt.Sprintf(key, n...)), Code: "hazard",
				What: fmt.Sprintf("nothing in this file says what %q is called", word),
				Hint: "write [[properties.called]] with its code and its name"})
		}
	}
	gives := func(word *string, key string, n int) {
		called(*word, key, n)
		*word = ""
	}
	for i, ladder := range s.Hardest {
		for j, word := range ladder.Classes {
			called(word, "hardest[%d].classes[%d]", i, j)
		}
	}
	for i := range own.Alone {
		gives(&own.Alone[i].Gives, "alone[%d].gives", i)
	}
	for i := range own.Sums {
		gives(&own.Sums[i].Gives, "sum[%d].gives", i)
	}
	for i := range own.Extremes {
		gives(&own.Extremes[i].Gives, "extreme[%d].gives", i)
	}
	c.schemeWords(&own, at)
	for i, of := range s.Called {
		c.list(of.Hints, at.At(fmt.Sprintf("called[%d].hints", i)))
		c.extra(of.Statements, at.At(fmt.Sprintf("called[%d].statements", i)))
	}
}

// schemeWords checks the class words of a scheme.
func (c *checker) schemeWords(s *lab.Scheme, at figure.Where) {
	one := func(word, key string, n ...any) {
		if word != "" && word != mixture.Otherwise {
			c.word(word, at.At(fmt.Sprintf(key, n...)), false)
		}
	}
	all := func(words []string, key string, n ...any) {
		for i, word := range words {
			one(word, fmt.Sprintf(key, n...)+"[%d]", i)
		}
	}
	for i, a := range s.Acute {
		for j, step := range a.Steps {
			one(step.Class, "acute[%d].step[%d].class", i, j)
		}
	}
	for i, r := range s.Alone {
		all(r.Of, "alone[%d].of", i)
		one(r.Gives, "alone[%d].gives", i)
	}
	for i, r := range s.Sums {
		one(r.Gives, "sum[%d].gives", i)
		all(r.Stands, "sum[%d].stands", i)
		for j, a := range r.Adds {
			all(a.Of, "sum[%d].adds[%d].of", i, j)
		}
	}
	for i, r := range s.Extremes {
		one(r.Gives, "extreme[%d].gives", i)
		all(r.Burners, "extreme[%d].burners", i)
		all(r.Own, "extreme[%d].own", i)
	}
	for i, r := range s.Follows {
		all(r.Of, "follows[%d].of", i)
		one(r.Gives, "follows[%d].gives", i)
	}
	for i, r := range s.Hardest {
		all(r.Classes, "hardest[%d].classes", i)
	}
	for i, r := range s.OnRequest {
		all(r.Of, "on_request[%d].of", i)
	}
}
