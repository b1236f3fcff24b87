package lab

import (
	"slices"
	"strings"
)

// Naming is what a book of rules says of how a law names dangers.
type Naming struct {
	// Classes are tables of classes, the worst kinds first: the order in which they are
	// listed.
	Classes []ClassTable `toml:"classes"`
	// Statements are the words of each code, and Supplements those that stand apart from
	// classes.
	Statements  map[string]string `toml:"statement"`
	Supplements map[string]string `toml:"supplement"`
	// Covers says which statements are left off a label because of a harder one.
	Covers map[string][]string `toml:"covers"`
	Drops  []Drop              `toml:"drops"`
	// InFull are further names of classes, by their abbreviation in small letters without
	// category and signs.
	InFull map[string][]string `toml:"in_full"`
	// Advice is what a label tells to do, in the order in which it takes them, and Most how
	// many of them it takes.
	Advice []Advice `toml:"advice"`
	Most   int      `toml:"most"`
}

// Advice is a precautionary statement.
type Advice struct {
	Code string `toml:"code"`
	Say  string `toml:"say"`
	// Brief is what a label says that has no room for all of it; empty: it says all or nothing.
	Brief string `toml:"brief"`
	// Of are the classes that ask for it, or the first words of them: "Repr." for all of
	// that class.
	Of []string `toml:"of"`
	// Beside are the codes beside which it says no more.
	Beside []string `toml:"beside"`
}

// asked reports whether a class asks for it.
func (a Advice) asked(c Class) bool {
	return slices.ContainsFunc(a.Of, func(of string) bool { return c.Bare == of || strings.HasPrefix(c.Bare, of+" ") })
}

// ClassTable is a table of a law that lists classes.
type ClassTable struct {
	// Table is where it stands in the law, and Known whether it was opened or is from
	// memory.
	Table string     `toml:"table"`
	Known string     `toml:"known"`
	Class []ClassRow `toml:"class"`
}

// ClassRow is a class and category with what a label says of it.
type ClassRow struct {
	Word string `toml:"word"`
	// Code is that of its statement, and With of those that stand behind it.
	Code      string   `toml:"code"`
	With      []string `toml:"with"`
	Signal    string   `toml:"signal"`
	Pictogram string   `toml:"pictogram"`
	// Organs: it may name the organs that it harms, in brackets behind the word.
	Organs bool `toml:"organs"`
	// Known goes before that of the table.
	Known string `toml:"known"`
}

// Drop is a pictogram that falls away beside another.
type Drop struct {
	Pictogram string `toml:"pictogram"`
	Beside    string `toml:"beside"`
	// Because are the classes for which the other must stand there; empty: any.
	Because []string `toml:"because"`
	// Of are the classes for which it falls away; empty: all.
	Of []string `toml:"of"`
}

// Class is a hazard class and category.
type Class struct {
	Word      string // "Eye Irrit. 2"
	Code      string // "H319"
	Statement string
	Signal    string // "Danger", "Warning" or nothing
	Pictogram string // "GHS07", or nothing
	// Bare is the word without organs, and Organs are those it names; OfOrgans: it may
	// name some.
	Bare, Organs string
	OfOrgans     bool
	// Rank is its place in the list of all.
	Rank int
}

// Physical reports a class that is found by a test of the thing itself: fire, explosion,
// pressure, metal (Annex I, part 2).
func (c Class) Physical() bool { return strings.HasPrefix(c.Code, "H2") }

// Vocabulary is how the dangers of things are named: all books of rules together.
type Vocabulary struct {
	classes     []Class
	at          map[string]int
	statements  map[string]string
	supplements map[string]string
	covers      map[string][]string
	drops       []Drop
	inFull      map[string][]string
	advice      []Advice
	most        int
}

// Vocabulary is how dangers are named here: by the program's books, and by what the lab's
// own add. A word that an earlier book has stays as it is there.
func (l *Lab) Vocabulary() *Vocabulary {
	if l.vocabulary != nil {
		return l.vocabulary
	}
	return vocabularyOf(l.Rules)
}

func vocabularyOf(books []*RuleBook) *Vocabulary {
	v := &Vocabulary{at: map[string]int{}, statements: map[string]string{}, supplements: map[string]string{},
		covers: map[string][]string{}, inFull: map[string][]string{}}
	for _, book := range books {
		add(v.statements, book.Statements)
		add(v.supplements, book.Supplements)
		add(v.covers, book.Covers)
		add(v.inFull, book.InFull)
		v.drops = append(v.drops, book.Drops...)
		v.advice = append(v.advice, book.Advice...)
		v.most = max(v.most, book.Most)
	}
	for _, book := range books {
		for _, t := range book.Classes {
			for _, r := range t.Class {
				if _, have := v.at[r.Word]; !have {
					v.at[r.Word] = len(v.classes)
					v.classes = append(v.classes, v.class(r))
				}
			}
		}
	}
	return v
}

func add[T any](to, from map[string]T) {
	for key, value := range from {
		if _, have := to[key]; !have {
			to[key] = value
		}
	}
}

// class is a row with its words.
func (v *Vocabulary) class(r ClassRow) Class {
	words := []string{v.statements[r.Code]}
	for _, code := range r.With {
		words = append(words, v.statements[code])
	}
	return Class{Word: r.Word, Code: r.Code, Statement: strings.Join(words, " "), Signal: r.Signal,
		Pictogram: r.Pictogram,
		Bare:      r.Word, OfOrgans: r.Organs, Rank: len(v.classes)}
}

// Class finds a class by its word. One that may name organs is found with any in brackets.
func (v *Vocabulary) Class(word string) (Class, bool) {
	if i, ok := v.at[word]; ok {
		return v.classes[i], true
	}
	bare, rest, ok := strings.Cut(word, " (")
	organs, closed := strings.CutSuffix(rest, ")")
	i, known := v.at[bare]
	if !ok || !closed || !known || !v.classes[i].OfOrgans || strings.TrimSpace(organs) != organs || organs == "" ||
		strings.ContainsAny(organs, "()") {
		return Class{}, false
	}
	c := v.classes[i]
	c.Word, c.Organs = word, organs
	c.Statement = strings.Replace(c.Statement, "organs", "organs ("+organs+")", 1)
	return c, true
}

// Classes are all classes, in order, without organs.
func (v *Vocabulary) Classes() []Class { return v.classes }

// Coded lists the words of the classes that carry a statement code: a bare code does not
// say which of them is meant.
func (v *Vocabulary) Coded(code string) []string {
	var out []string
	for _, c := range v.classes {
		if strings.EqualFold(c.Code, code) {
			out = append(out, c.Word)
		}
	}
	return out
}

// Statement returns the text of a statement that a class has.
func (v *Vocabulary) Statement(code string) (string, bool) {
	s, ok := v.statements[code]
	return s, ok
}

// Supplement returns the text of a supplemental statement.
func (v *Vocabulary) Supplement(code string) (string, bool) {
	s, ok := v.supplements[code]
	return s, ok
}

// Covered are the codes of the statements that one with this code makes superfluous.
func (v *Vocabulary) Covered(code string) []string { return v.covers[code] }

// InFull are further names of a class, by its abbreviation in small letters.
func (v *Vocabulary) InFull(short string) []string { return v.inFull[short] }

// Advice is what a label that carries the classes tells to do, in order, at most as much as
// a label takes.
func (v *Vocabulary) Advice(classes []Class) []Advice {
	var out []Advice
	for _, a := range v.advice {
		said := slices.ContainsFunc(out, func(o Advice) bool {
			return o.Code == a.Code ||
				slices.Contains(a.Beside, o.Code)
		})
		if len(out) < v.most && !said && slices.ContainsFunc(classes, a.asked) {
			out = append(out, a)
		}
	}
	return out
}

// Asks reports whether any class asks for an advice.
func (v *Vocabulary) Asks(a Advice, of string) bool {
	a.Of = []string{of}
	return slices.ContainsFunc(v.classes, a.asked)
}

// Pictograms are those of a label that carries the classes, in order of their numbers,
// each once, without what falls away beside another.
func (v *Vocabulary) Pictograms(classes []Class) []string {
	stands := func(pictogram string, because []string) bool {
		return slices.ContainsFunc(classes, func(c Class) bool {
			return c.Pictogram == pictogram && (len(because) == 0 || slices.Contains(because, c.Bare))
		})
	}
	var out []string
	for _, c := range classes {
		dropped := slices.ContainsFunc(v.drops, func(d Drop) bool {
			return d.Pictogram == c.Pictogram && (len(d.Of) == 0 || slices.Contains(d.Of, c.Bare)) &&
				stands(d.Beside, d.Because)
		})
		if c.Pictogram != "" && !dropped && !slices.Contains(out, c.Pictogram) {
			out = append(out, c.Pictogram)
		}
	}
	slices.Sort(out)
	return out
}
