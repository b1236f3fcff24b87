package procedures

import (
	"fmt"
	"sort"

	"wetside/procedures/cards"
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/page"
	"wetside/procedures/shelf"
	"wetside/procedures/unit"
	"wetside/procedures/waste"
)

// Check finds every problem in what a lab has declared that shows on that day
// before any card is made. Definitions may be missing; nothing is worked out.
func Check(l *lab.Lab, day unit.Date) []lab.Problem {
	_, more := mix.NewBench(l)
	problems := append(append(lab.Check(l), hazard.Check(l)...), waste.Check(l)...)
	return append(append(problems, shelf.Check(l, day)...), more...)
}

// Compute makes the binder of a lab for a day. When any problem is not a
// warning, the binder is empty. Every definition must be there and readable.
func Compute(l *lab.Lab, day unit.Date) (Binder, []lab.Problem) {
	problems := Check(l, day)
	for _, p := range problems {
		if !p.Warning {
			return Binder{}, problems
		}
	}
	bench, _ := mix.NewBench(l)
	book := figure.NewLedger()
	c := cards.NewContext(l, mix.New(l, bench, book))
	c.Day = day
	var pages []page.Page
	for _, k := range cards.Kinds {
		made := k.Make(c)
		c.Made(made)
		pages = append(pages, made...)
	}
	problems = append(problems, c.Problems...)
	problems = append(problems, wallProblems(l, c)...)
	for _, p := range problems {
		if !p.Warning {
			return Binder{}, problems
		}
	}
	pages = append(pages, cards.Front(c, pages, labHoles(l)))
	workings := cards.Workings(book)
	for i := range pages {
		ids := page.Figures(page.Lasting(pages[i]))
		if pages[i].ID == "index" { // the front page counts them all
			ids = nil
			for _, r := range book.Records() {
				ids = append(ids, r.ID)
			}
		}
		pages[i].Foot.Vouched = cards.Vouched(book, ids)
	}
	pages = append(pages, workings...)
	return Binder{
		Lab: l.Place.Lab.Name, Day: day.String(), Demonstration: !l.Place.Lab.Day.IsZero(),
		Pages: pages, Prints: c.Prints, Figures: book.Records(), Verdicts: book.Verdicts(),
		Address:         l.Place.Print.Address,
		Classifications: classifications(l, c), Holes: labHoles(l), Discards: c.Discards, Paper: paperOf(l.Place.Print),
	}, problems
}

func paperOf(p lab.PrintRules) page.Paper {
	return page.Paper{Punch: p.Punch, Laminate: p.Laminate, Colour: p.Mono != nil && !*p.Mono}
}

// wallProblems finds prints that the lab asks for and no card has.
func wallProblems(l *lab.Lab, c *cards.Context) []lab.Problem {
	var problems []lab.Problem
	for i, w := range l.Place.Print.Wall {
		found := false
		for _, v := range c.Variants {
			found = found || v == w
		}
		if !found {
			problems = append(problems, lab.Problem{At: l.Place.At(fmt.Sprintf("print.wall[%d]", i)), Code: "reference",
				What: fmt.Sprintf("no card has a print %q", w), Hint: lab.Near(w, c.Variants, "prints are named process+material.tank, process+vessel or solution.strength+volume, for example "+example(c.Variants))})
		}
	}
	return problems
}

func example(variants []string) string {
	if len(variants) == 0 {
		return "film-negative+film-400.double"
	}
	return variants[0]
}

// Classification is what is known of the dangers of one strength.
type Classification struct {
	Subject, Strength string
	Known             hazard.Known
}

func classifications(l *lab.Lab, c *cards.Context) []Classification {
	var out []Classification
	for _, b := range l.Baths() {
		out = append(out, Classification{Subject: b.Def().ID, Strength: b.Strength, Known: hazard.OfBath(l, c.Mix.Made(b))})
	}
	sort.SliceStable(out, func(i, j int) bool {
		if out[i].Subject != out[j].Subject {
			return out[i].Subject < out[j].Subject
		}
		return out[i].Strength < out[j].Strength
	})
	return out
}

// labHoles are what nobody has filled in about the whole lab.
func labHoles(l *lab.Lab) []page.Hole {
	var out []page.Hole
	hole := func(missing bool, what, until, key string) {
		if missing {
			out = append(out, page.Hole{What: what, Until: until, Key: key})
		}
	}
	e := l.Local.Emergency
	hole(l.Place.Lab.Name == "", "the name of this darkroom", "cards carry no name", "name under [lab] in lab.toml")
	hole(len(l.Place.Scales) == 0, "the scales", "cards say what a scale must show", "[scale.…] in lab.toml")
	hole(len(l.Place.Cylinders) == 0, "the measuring cylinders", "cards say how a cylinder must be divided", "[cylinder.…] in lab.toml")
	hole(len(l.Place.Tanks) == 0 && len(l.Place.Trays) == 0, "the tanks and trays", "no vessel tables", "[tank.…] in lab.toml")
	hole(e.Number == "", "the emergency number", "ask before you start", "number under [emergency] in local.toml")
	hole(e.Poison == "", "the poison centre’s number", "ask before you start", "poison under [emergency] in local.toml")
	hole(e.Address == "", "this room’s address in words", "ask before you start", "address under [emergency] in local.toml")
	hole(e.Eyewash == "", "where the eyewash is", "ask before you start", "eyewash under [emergency] in local.toml")
	hole(e.FirstAid == "", "who gives first aid", "ask before you start", "first_aid under [emergency] in local.toml")
	hole(l.Local.Permit.Drain == "", "what may go down the drain", "to a drum: ask first", "drain under [permit] in local.toml")
	hole(l.Local.Permit.Treat == "", "whether waste may be treated here", "to a drum: ask first", "treat under [permit] in local.toml")
	return out
}
