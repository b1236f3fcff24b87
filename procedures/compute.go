package procedures

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"wetside/procedures/cards"
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/page"
	"wetside/procedures/shelf"
	"wetside/procedures/unit"
	"wetside/procedures/waste"
	"wetside/procedures/work"
)

// Check finds every problem in what a lab has declared that shows on that day
// before any card is made. Definitions may be missing; nothing is worked out.
func Check(l *lab.Lab, day unit.Date) []lab.Problem {
	_, more := mix.NewBench(l)
	problems := append(append(lab.Check(l, day), hazard.Check(l)...), waste.Check(l)...)
	return append(append(problems, shelf.Check(l, day)...), more...)
}

// Compute makes the binder of a lab for a day; Finish closes it. When any problem is not
// a warning, the binder is empty. Every definition must be there and readable.
func Compute(l *lab.Lab, day unit.Date) (Binder, []lab.Problem) {
	problems := Check(l, day)
	for _, p := range problems {
		if !p.Warning {
			return Binder{}, problems
		}
	}
	binder, more := compute(l, day)
	problems = append(problems, more...)
	for _, p := range more {
		if !p.Warning {
			return Binder{}, problems
		}
	}
	return binder, problems
}

// ComputeRest is what can be answered of a lab from which definitions with problems were
// taken out: the lab's own numbers may still name them. It is for questions, not for a
// binder.
func ComputeRest(l *lab.Lab, day unit.Date) Binder {
	binder, _ := compute(l, day)
	return binder
}

func compute(l *lab.Lab, day unit.Date) (Binder, []lab.Problem) {
	w := work.Of(l, day)
	c := cards.NewContext(w)
	var pages []page.Page
	share := page.NewSharer()
	for _, k := range cards.Kinds {
		made := makeCards(k, c)
		for i, p := range made {
			made[i] = share.Page(p)
		}
		c.Made(made)
		pages = append(pages, made...)
	}
	problems := append(w.Problems, c.Problems...)
	problems = append(problems, sheetProblems(l, c)...)
	problems = append(problems, wallProblems(l, c)...)
	problems = append(problems, clashProblems(l, w)...)
	problems = append(problems, pathProblems(pages, c.Prints)...)
	pages = append(pages, cards.Front(c, pages, labHoles(l)))
	answers := w.Answers()
	return Binder{
		Lab: l.Place.Lab.Name, Day: day.String(), Demonstration: !l.Place.Lab.Day.IsZero(),
		Groups: cards.Groups(), Pages: pages, Workings: cards.Workings(answers), Prints: c.Prints, Answers: answers,
		Verdicts:        w.Verdicts(),
		Address:         l.Place.Print.Address,
		Classifications: classifications(w), Holes: labHoles(l), Discards: c.Discards, Paper: paperOf(l.Place.Print),
	}, problems
}

// Mistake is a mistake of this program, found while it made cards of one kind.
type Mistake struct {
	Kind string
	What any
}

// Error names the kind of card.
func (m Mistake) Error() string {
	return fmt.Sprintf("while the %s cards were made: %v", m.Kind, m.What)
}

// makeCards makes the cards of one kind. What goes wrong in it names the kind.
func makeCards(k cards.Kind, c *cards.Context) []page.Page {
	defer func() {
		if r := recover(); r != nil {
			panic(Mistake{Kind: k.Name, What: r})
		}
	}()
	return k.Make(c)
}

// clashProblems are two different values under one id, and values that are no
// number: none of them may stand on a card.
func clashProblems(l *lab.Lab, w *work.Work) []lab.Problem {
	var out []lab.Problem
	seen := map[string]bool{}
	for _, k := range w.Clashes() {
		if seen[k.One.ID] {
			continue
		}
		seen[k.One.ID] = true
		one, other := placeOf(k.One), placeOf(k.Other)
		p := lab.Problem{At: one, OnKey: true, Code: "id",
			What: fmt.Sprintf("two answers go under one name, %s: %s and %s", k.One.ID, shownOf(k.One),
				shownOf(k.Other)),
			Hint: "two definitions of one name differ: give one of them another name, or make them alike"}
		if k.One.Refused() {
			p.What, p.Hint = fmt.Sprintf("%s (%s) comes to no number: %s", k.One.ID, k.One.Name, k.One.Why),
				"look for a nought or a very large number among what it is worked out from"
		} else if other.File != "" && other != one {
			p.What += " (" + other.File + ", " + other.Key + ")"
		}
		if p.At.File == "" {
			p.At = l.Place.At("")
		}
		out = append(out, p)
	}
	return out
}

func shownOf(r *figure.Record) string {
	if r.Refused() {
		return "none, because " + r.Why
	}
	return strings.TrimSpace(r.Shown + " " + r.Unit)
}

// placeOf is the first place in the lab's files that a figure is worked out from.
func placeOf(r *figure.Record) figure.Where {
	for _, in := range r.Inputs {
		if in.Where.File != "" {
			return in.Where
		}
	}
	return figure.Where{}
}

// pathProblems are two cards or two prints that want one file.
func pathProblems(pages []page.Page, prints []page.Print) []lab.Problem {
	var out []lab.Problem
	byID := map[string]page.Page{}
	taken := map[string]page.Page{}
	clash := func(path string, a, b page.Page) {
		if a.ID == "" || a.ID == b.ID && a.Foot.File == b.Foot.File && a.Title == b.Title {
			return
		}
		if !strings.Contains(b.Foot.File, "/") { // the card of a definition gives way to the room's own
			a, b = b, a
		}
		out = append(out, lab.Problem{At: figure.Where{File: b.Foot.File}, OnKey: true, Code: "id",
			What: fmt.Sprintf("%q and %q both want the path %s", a.Title, b.Title, path),
			Hint: "give the file of one of them another name"})
	}
	for _, p := range pages {
		clash(p.ID, byID[p.ID], p)
		byID[p.ID] = p
		for _, was := range p.Was {
			clash(was, taken[was], p)
			taken[was] = p
		}
	}
	for _, p := range pages {
		for _, was := range p.Was {
			if other, ok := byID[was]; ok {
				clash(was, other, p)
			}
		}
	}
	printed := map[string]page.Page{}
	for _, p := range prints {
		for _, face := range p.Faces {
			path := face + "/" + p.Variant
			clash(path, printed[path], byID[p.Page])
			printed[path] = byID[p.Page]
		}
	}
	return out
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
				What: fmt.Sprintf("no card has a print %q", w),
				Hint: lab.Near(w, c.Variants,
					"prints are named process+material.tank, process+vessel or solution.strength+volume, for example "+example(c.Variants,
						"film-negative+film-400.double"))})
		}
	}
	return problems
}

// sheetProblems finds labels that the lab wants on its sheet and that are not made.
func sheetProblems(l *lab.Lab, c *cards.Context) []lab.Problem {
	if c.W.LabelSheet == nil {
		return nil
	}
	var problems []lab.Problem
	var names []string
	bottles := map[string][]string{}
	for _, made := range c.Labels {
		names = append(names, made.Name)
		bottles[made.Name] = made.Bottles
	}
	for i, want := range c.W.LabelSheet.Wanted {
		p := lab.Problem{At: l.Place.At(fmt.Sprintf("print.sheet.labels[%d]", i)), Code: "reference"}
		list, made := bottles[want.Card]
		switch {
		case !made:
			p.What = fmt.Sprintf("there is no label %q", want.Card)
			p.Hint = lab.Near(want.Card, names,
				"labels are named solution.strength, by a batch's number or drum-NAME, for example "+example(names,
					"fixer.film"))
		case want.Bottle != "" && !slices.Contains(list, want.Bottle):
			p.What = fmt.Sprintf("the label %q is not made for a bottle %q", want.Card, want.Bottle)
			p.Hint = lab.Near(want.Bottle, list, "it is made for "+strings.Join(list, ", "))
		default:
			continue
		}
		problems = append(problems, p)
	}
	return problems
}

// example is the first of a list, or where it is empty, another.
func example(list []string, otherwise string) string {
	if len(list) == 0 {
		return otherwise
	}
	return list[0]
}

// Classification is what is known of the dangers of one strength, or of a substance as it
// comes. Of is bath or chemical, Form powder, stock, working or supplied.
type Classification struct {
	Of, Subject, Strength, Form string
	Known                       work.Known
}

func classifications(w *work.Work) []Classification {
	var out []Classification
	for _, b := range w.Baths {
		out = append(out, Classification{Of: "bath", Subject: b.Def().ID, Strength: b.Strength, Form: b.Form(),
			Known: b.Dangers.Known})
	}
	for _, c := range w.Chemicals {
		form := "supplied"
		if c.Dusty() {
			form = "powder"
		}
		out = append(out, Classification{Of: "chemical", Subject: c.Decl.ID, Strength: form, Form: form,
			Known: c.Dangers.Known})
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
	hole(len(l.Place.Cylinders) == 0, "the measuring cylinders", "cards say how a cylinder must be divided",
		"[cylinder.…] in lab.toml")
	hole(len(l.Place.Drums) == 0, "the drums for waste",
		"what must not go down the drain stays in its vessel: ask first", "[drum.…] in lab.toml")
	hole(len(l.Place.Tanks) == 0 && len(l.Place.Trays) == 0, "the tanks and trays", "no vessel tables",
		"[tank.…] in lab.toml")
	hole(e.Number == "", "what the emergency number is", "find out before you start", "number under [emergency] in local.toml")
	hole(e.Poison == "", "what the poison centre’s number is", "find out before you start",
		"poison under [emergency] in local.toml")
	hole(e.Address == "", "what this room’s address is, in words", "find out before you start",
		"address under [emergency] in local.toml")
	hole(e.Eyewash == "", "where the eyewash is", "find out before you start", "eyewash under [emergency] in local.toml")
	hole(e.FirstAid == "", "who gives first aid", "find out before you start",
		"first_aid under [emergency] in local.toml")
	hole(l.Local.Permit.Drain == "", "what may go down the drain", "to a drum: ask first",
		"drain under [permit] in local.toml")
	hole(l.Local.Permit.Treat == "", "whether waste may be treated here", "to a drum: ask first",
		"treat under [permit] in local.toml")
	return out
}
