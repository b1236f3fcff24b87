package rules

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

func chemical(id, name string) *lab.Chemical {
	c := &lab.Chemical{Name: name, Forms: map[string]*lab.Form{"pure": {Formula: "none"}}}
	c.ID, c.File = id, "chemicals/"+id+".toml"
	return c
}

func solution(id string, adds ...string) *lab.Solution {
	s := &lab.Solution{Name: id + " bath", Per: lab.Say[unit.Volume]("1 L")}
	s.ID, s.File = id, "solutions/"+id+".toml"
	for _, a := range adds {
		s.Steps = append(s.Steps, lab.Step{Add: a})
	}
	return s
}

func bath(l *lab.Lab, id string) lab.Bath {
	return lab.Bath{Solution: l.Solution(id), Strength: "stock"}
}

// bench is a lab with a few substances and baths, the program's book of rules and, if
// there is one, a book of its own.
func bench(own ...*lab.RuleBook) *lab.Lab {
	book := &lab.RuleBook{Def: lab.Def{File: "rules/groups.toml", Library: true},
		Groups: map[string]*lab.Group{
			"acid":          {Name: "acid", Members: []string{"acid-strong", "acid-weak"}},
			"acid-strong":   {Name: "strong acid", Members: []string{"vitriol"}, Names: []string{"nitric acid"}, About: true},
			"acid-weak":     {Name: "weak acid", Members: []string{"citric"}, Shelf: "acids, weak"},
			"alkali-strong": {Name: "strong alkali", Members: []string{"lye"}},
			"sulfite":       {Name: "sulfite", Members: []string{"white"}, Names: []string{"potassium sulfite"}, Shelf: "sulfites", Such: "also metabisulfite"},
			"sulfur":        {Name: "thiourea", Members: []string{"urea"}},
			"sulfur-lye":    {Name: "thiourea with alkali", All: []string{"sulfur", "alkali-strong"}},
			"iodine":        {Name: "iodine"},
		},
		Apart: []lab.Apart{
			{These: []string{"alkali-strong"}, Those: []string{"acid"}, Gives: "heat"},
			{These: []string{"sulfite"}, Those: []string{"acid"}, Gives: "sulfur dioxide", Extract: true, Source: "a card"},
			{These: []string{"sulfur-lye"}, Those: []string{"acid"}, Gives: "hydrogen sulfide", Note: "at once", Extract: true},
			{These: []string{"acid-strong"}, Those: []string{"sulfur"}, Gives: "explosive", Concentrate: true},
			{These: []string{"sulfur"}, Never: "let it dry", Gives: "heat"},
			{These: []string{"sulfite"}, Those: []string{"iodine"}, Gives: "heat"},
		},
		Spills: []lab.Spill{{Of: []string{"acid"}, Alone: true, Small: "soda"}, {Of: []string{"sulfite"}, Small: "mop"}},
	}
	l := &lab.Lab{
		Chemicals: []*lab.Chemical{chemical("vitriol", "oil of vitriol"), chemical("citric", "citric acid"), chemical("lye", "lye"), chemical("white", "sodium sulfite"), chemical("urea", "thiourea"),
			chemical("kali", "Potassium  sulphite (45 %)"), chemical("strange", "strange salt")},
		Solutions: []*lab.Solution{solution("stop", "citric"), solution("clear", "white"), solution("sour", "white", "citric"), solution("toner", "urea", "lye"), solution("alkali", "lye"), solution("odd", "strange"),
			solution("both", "stop", "clear"), solution("sharp", "white")},
		Rules: append([]*lab.RuleBook{book}, own...),
	}
	l.Solutions[7].PH = lab.Say[unit.Factor]("1.0..2.0")
	p := &lab.Product{Name: "bought fixer"}
	p.ID = "bought"
	l.Products = []*lab.Product{p}
	l.Index()
	return l
}

// TestKinds: what a bath is comes from everything in it, from its pH, and from names
// that have no file.
func TestKinds(t *testing.T) {
	l := bench()
	r, bad := Of(l)
	require.Empty(t, bad)
	for _, c := range []struct {
		bath string
		is   []string
		not  []string
	}{
		{"stop", []string{"acid", "acid-weak"}, []string{"acid-strong", "sulfite"}},
		{"both", []string{"acid", "sulfite"}, []string{"alkali-strong"}},
		{"toner", []string{"sulfur", "alkali-strong", "sulfur-lye"}, []string{"acid"}},
		{"alkali", []string{"alkali-strong"}, []string{"sulfur-lye"}},
		{"sharp", []string{"sulfite", "acid-strong", "acid"}, nil},
	} {
		k := r.OfBath(bath(l, c.bath))
		for _, id := range c.is {
			require.True(t, k.Any(id), "%s is %s", c.bath, id)
		}
		for _, id := range c.not {
			require.False(t, k.Any(id), "%s is no %s", c.bath, id)
		}
	}
	require.True(t, r.OfChemical(l.Chemical("kali")).Any("sulfite"), "by its name: one spelling, no brackets, single spaces")
	require.True(t, r.OfName("Nitric acid").Any("acid-strong"))
	require.False(t, r.OfName("acid of the devil").Any("acid"), "no word of a name is guessed at")
	require.True(t, r.OfBath(bath(l, "toner"), bath(l, "stop")).Any("acid"))
}

// TestHowAcid: a bath of which somebody has worked out the pH is a strong acid or alkali from
// the limits on, by the worse of its bounds; what somebody has written goes before that.
func TestHowAcid(t *testing.T) {
	for _, c := range []struct {
		low, high    unit.Factor
		acid, alkali bool
	}{{2, 2, true, false}, {2.1, 2.1, false, false}, {1.9, 2.5, true, false}, {11.4, 11.4, false, false}, {11.5, 11.5, false, true}, {11, 12, false, true}, {7, 7, false, false}} {
		l := bench()
		r, _ := Of(l)
		r.HowAcid(bath(l, "odd"), c.low, c.high)
		k := r.OfBath(bath(l, "odd"))
		require.Equal(t, c.acid, k.Any("acid-strong"), "%v to %v", c.low, c.high)
		require.Equal(t, c.alkali, k.Any("alkali-strong"), "%v to %v", c.low, c.high)
	}
	l := bench()
	r, _ := Of(l)
	require.False(t, r.OfBath(bath(l, "odd")).Any("acid-strong", "alkali-strong"), "nobody knows its pH")
	r, _ = Of(l)
	r.HowAcid(bath(l, "sharp"), 7, 7)
	require.True(t, r.OfBath(bath(l, "sharp")).Any("acid-strong"), "what is written goes first")
}

// TestUnsaid: what is in no group is named, each once.
func TestUnsaid(t *testing.T) {
	l := bench()
	r, _ := Of(l)
	require.Equal(t, []string{"strange salt"}, r.Unsaid(bath(l, "odd"), bath(l, "stop"), bath(l, "odd")))
	require.Equal(t, []string{"bought fixer"}, r.Unsaid(lab.Bath{Product: l.Product("bought"), Strength: lab.Supplied}), "bought, and nobody knows what is in it")
	require.True(t, r.Said(l.Chemical("kali")))
	l = bench(&lab.RuleBook{Def: lab.Def{File: "rules/own.toml"}, Groups: map[string]*lab.Group{"sulfite": {Members: []string{"bought", "strange"}}}})
	r, bad := Of(l)
	require.Empty(t, bad)
	require.Empty(t, r.Unsaid(lab.Bath{Product: l.Product("bought"), Strength: lab.Supplied}, bath(l, "odd")), "a lab adds members to the program's groups")
	require.Equal(t, "sulfites", r.Shelf(l.Chemical("strange")))
	require.Equal(t, "acids, weak", r.Shelf(l.Chemical("citric")))
	require.Empty(t, r.Shelf(l.Chemical("urea")))
}

// TestPairs: the worst comes first, concentrates are told apart from baths, and what is
// both sides by itself has come to rest.
func TestPairs(t *testing.T) {
	l := bench()
	r, _ := Of(l)
	gives := func(pairs []Pair) []string {
		var out []string
		for _, p := range pairs {
			out = append(out, p.Reason())
		}
		return out
	}
	k := func(id string) Kinds { return r.OfBath(bath(l, id)) }
	require.Equal(t, []string{"hydrogen sulfide, at once", "heat"}, gives(r.Between(k("toner"), k("stop"))))
	require.Equal(t, gives(r.Between(k("stop"), k("toner"))), gives(r.Between(k("toner"), k("stop"))))
	require.Equal(t, []string{"sulfur dioxide"}, gives(r.Between(k("sour"), k("stop"))))
	require.Empty(t, r.Clash(k("sour"), k("stop")), "what holds both is at rest")
	require.Equal(t, []string{"sulfur dioxide"}, gives(r.Stirs(k("sour"), k("stop"))), "and more acid stirs it")
	require.Equal(t, gives(r.Stirs(k("stop"), k("sour"))), gives(r.Stirs(k("sour"), k("stop"))))
	require.Empty(t, r.Stirs(k("sour"), k("clear")), "more of what it is freed from does not")
	require.Empty(t, r.Stirs(k("clear"), k("stop")), "nothing of the two is at rest")
	require.Empty(t, r.Stirs(k("sour"), k("sour")))
	require.Empty(t, r.Stirs(r.Together(k("alkali"), k("stop")), k("stop")), "what gets hot has had its heat")
	require.Equal(t, []string{"sulfur dioxide"}, gives(r.Clash(k("clear"), k("stop"))))
	require.Empty(t, r.Between(k("clear"), k("toner")))

	never := func(asTheyCome bool, list ...Kinds) []string {
		var out []string
		for _, m := range r.Never(list, asTheyCome) {
			out = append(out, r.Side(m.Other)+m.Never)
		}
		return out
	}
	require.Equal(t, []string{"acid", "let it dry"}, never(false, k("toner")))
	require.Equal(t, []string{"acid", "strong acid", "let it dry"}, never(true, k("toner")), "as it comes")
	require.Equal(t, []string{"acid"}, never(true, r.OfChemical(l.Chemical("white"))), "nobody here has iodine")
	require.Equal(t, []string{"thiourea with alkali", "sulfite", "strong alkali"}, never(false, k("stop")))
	require.Equal(t, "thiourea, sulfite or acid", r.Side([]string{"sulfur", "sulfite", "acid"}))
	require.Equal(t, []Made{{"sulfite", "also metabisulfite"}}, r.Such([]string{"sulfite", "water"}))

	gas := func(id string) []string {
		var out []string
		for _, m := range r.GasWith(k(id)) {
			out = append(out, r.Side(m.Other)+": "+m.Pairs[0].Reason())
		}
		return out
	}
	require.Equal(t, []string{"thiourea with alkali: hydrogen sulfide, at once", "acid: sulfur dioxide"}, gas("sour"), "more acid still sets it free")
	require.Equal(t, []string{"thiourea with alkali: hydrogen sulfide, at once", "sulfite: sulfur dioxide"}, gas("stop"))
	require.Equal(t, []string{"acid: hydrogen sulfide, at once"}, gas("toner"))
	require.Empty(t, gas("alkali"), "heat is no gas")

	require.Equal(t, []string{"sulfur dioxide"}, gives(r.Gases(k("clear"))))
	require.Empty(t, r.Gases(k("stop")), "the acid is not where the gas comes from")
	require.Equal(t, []lab.Spill{l.Rules[0].Spills[0]}, r.SpillsOf(k("stop")))
	require.Equal(t, []lab.Spill{l.Rules[0].Spills[1]}, r.SpillsOf(k("sour")), "an acid that stands with sulfite is not fizzed away")
}

// TestSaidOnce: what two pairs say of one other side in the same words stands once, in
// other words beside it.
func TestSaidOnce(t *testing.T) {
	l := bench(&lab.RuleBook{Def: lab.Def{File: "rules/own.toml"}, Apart: []lab.Apart{
		{These: []string{"white"}, Those: []string{"acid"}, Gives: "sulfur dioxide"}, {These: []string{"white"}, Those: []string{"acid"}, Gives: "sulfur dioxide", Note: "at once"}}})
	r, bad := Of(l)
	require.Empty(t, bad)
	list := r.Never([]Kinds{r.OfBath(bath(l, "clear"))}, false)
	require.Len(t, list, 1)
	require.Len(t, list[0].Pairs, 2)
	require.Equal(t, "sulfur dioxide", list[0].Pairs[0].Reason())
	require.Equal(t, "sulfur dioxide, at once", list[0].Pairs[1].Reason())
}

// TestRouteApart: a pair of a waste route is one of what the route takes.
func TestRouteApart(t *testing.T) {
	l := bench()
	l.Wastes = []*lab.Waste{{Def: lab.Def{ID: "tone", File: "waste/tone.toml"}, Name: "used toner", Apart: []lab.Apart{{Those: []string{"stop"}, Gives: "fire"}, {These: []string{"acid"}, Those: []string{"urea"}, Gives: "chlorine"}}}}
	l.Solution("clear").Waste = "tone"
	l.Index()
	r, bad := Of(l)
	require.Empty(t, bad)
	pairs := r.Between(r.OfBath(bath(l, "clear")), r.OfBath(bath(l, "stop")))
	require.Len(t, pairs, 2)
	require.Equal(t, "fire", pairs[1].Gives.Word)
	require.Equal(t, "used toner", r.Side(pairs[1].These))
	require.Equal(t, "stop bath", r.Side(pairs[1].Those))
	require.Equal(t, "chlorine", r.Between(r.OfBath(bath(l, "toner")), r.OfBath(bath(l, "stop")))[1].Gives.Word)
}

// TestFaults: what a book names must be there, and each mistake has its place.
func TestFaults(t *testing.T) {
	own := func(b lab.RuleBook) *lab.RuleBook {
		b.Def = lab.Def{File: "rules/own.toml"}
		return &b
	}
	group := func(id string, g lab.Group) *lab.RuleBook {
		return own(lab.RuleBook{Groups: map[string]*lab.Group{id: &g}})
	}
	pair := func(a lab.Apart) *lab.RuleBook { return own(lab.RuleBook{Apart: []lab.Apart{a}}) }
	for _, c := range []struct {
		name string
		book *lab.RuleBook
		want []string // code and key
		hint string
	}{
		{"a word nobody knows", pair(lab.Apart{These: []string{"sulfit"}, Those: []string{"acid"}, Gives: "heat"}), []string{"reference apart[0].these[0]"}, `did you mean "sulfite"?`},
		{"a strength", pair(lab.Apart{These: []string{"acid"}, Those: []string{"clear.stock"}, Gives: "heat"}), []string{"reference apart[0].those[0]"}, `write "clear"`},
		{"no first half", pair(lab.Apart{Those: []string{"acid"}, Gives: "heat"}), []string{"missing apart[0]"}, "these"},
		{"no second half", pair(lab.Apart{These: []string{"acid"}, Gives: "heat"}), []string{"missing apart[0]"}, "those"},
		{"two second halves", pair(lab.Apart{These: []string{"acid"}, Those: []string{"lye"}, Never: "dry it", Gives: "heat"}), []string{"shape apart[0].never"}, "one of the two"},
		{"nothing happens", pair(lab.Apart{These: []string{"acid"}, Those: []string{"lye"}}), []string{"missing apart[0]"}, "gives"},
		{"something else happens", pair(lab.Apart{These: []string{"acid"}, Those: []string{"lye"}, Gives: "chlorin"}), []string{"word apart[0].gives"}, `did you mean "chlorine"?`},
		{"a member nobody knows", group("acid-weak", lab.Group{Members: []string{"citrik"}}), []string{"reference group.acid-weak.members[0]"}, `did you mean "citric"?`},
		{"a part nobody knows", group("mine", lab.Group{Name: "mine", All: []string{"acid", "nothing-of-it"}}), []string{"reference group.mine.all[1]"}, ""},
		{"one of each of one", group("mine", lab.Group{Name: "mine", All: []string{"acid"}}), []string{"shape group.mine.all"}, "members"},
		{"no name", group("mine", lab.Group{Members: []string{"lye"}}), []string{"missing group.mine"}, "name"},
		{"an empty name", group("mine", lab.Group{Name: "mine", Names: []string{" "}}), []string{"missing group.mine.names[0]"}, ""},
		{"the id of a bath", group("stop", lab.Group{Name: "stop"}), []string{"id group.stop"}, "another name"},
		{"a circle", group("acid-weak", lab.Group{Members: []string{"acid"}}), []string{"loop group.acid-weak"}, "members"},
		{"a change of law without a day", own(lab.RuleBook{Changes: []lab.LawChange{{What: "new classes"}}}), []string{"missing change[0]"}, "on"},
		{"a change of law without a word", own(lab.RuleBook{Changes: []lab.LawChange{{On: lab.SaidDate{Date: unit.Date{Year: 2026, Month: 5, Day: 1}}}}}), []string{"missing change[0]"}, "what"},
		{"a spill of nothing", own(lab.RuleBook{Spills: []lab.Spill{{Small: "mop"}}}), []string{"missing spill[0]"}, "of"},
		{"a spill without a word", own(lab.RuleBook{Spills: []lab.Spill{{Of: []string{"acid"}}}}), []string{"missing spill[0]"}, "small"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, bad := Of(bench(c.book))
			var got []string
			for _, p := range bad {
				require.Equal(t, "rules/own.toml", p.At.File)
				require.NotEmpty(t, p.What)
				require.Contains(t, p.Hint, c.hint)
				got = append(got, p.Code+" "+p.At.Key)
			}
			require.Equal(t, c.want, got)
		})
	}
	// A bath may have the id of a group of the program, as long as no rule of the lab
	// names it.
	l := bench()
	l.Solutions = append(l.Solutions, solution("iodine", "lye"))
	l.Index()
	r, bad := Of(l)
	require.Empty(t, bad)
	require.False(t, r.OfBath(bath(l, "iodine")).Any("iodine"))
	l.Rules = append(l.Rules, pair(lab.Apart{These: []string{"iodine"}, Those: []string{"lye"}, Gives: "heat"}))
	_, bad = Of(l)
	require.Len(t, bad, 1)
	require.Equal(t, "id", bad[0].Code)
	// What cannot be read raises nothing more.
	l = bench(pair(lab.Apart{These: []string{"broken"}, Those: []string{"lye"}, Gives: "heat"}))
	l.Broken = map[string]bool{"broken": true}
	_, bad = Of(l)
	require.Empty(t, bad)
}

// TestChangeOf: the first change of law after a sheet counts, where it is about something in the mixture,
// about every mixture, or where nobody has written what is in it.
func TestChangeOf(t *testing.T) {
	day := func(y int) lab.SaidDate { return lab.SaidDate{Date: unit.Date{Year: y, Month: 5, Day: 1}} }
	r, _ := Of(bench(&lab.RuleBook{Def: lab.Def{File: "rules/law.toml"}, Changes: []lab.LawChange{
		{On: day(2030), What: "every mixture"},
		{On: day(2028), Of: []string{"acid"}, What: "acids"},
		{On: day(2026), Of: []string{"sulfite"}, What: "sulfites"},
	}}))
	of := func(names ...string) map[string]lab.Share {
		out := map[string]lab.Share{}
		for _, n := range names {
			out[n] = lab.Share{}
		}
		return out
	}
	for name, x := range map[string]struct {
		edition  int
		contains map[string]lab.Share
		want     string
	}{
		"something in it":              {2025, of("white"), "sulfites"},
		"by its name on the sheet":     {2025, of("nitric acid"), "acids"},
		"the first of two":             {2025, of("citric", "white"), "sulfites"},
		"nothing of it in it":          {2025, of("urea"), "every mixture"},
		"nobody knows what is in it":   {2025, nil, "sulfites"},
		"a sheet after the first":      {2027, of("citric", "white"), "acids"},
		"a sheet of the very day":      {2028, of("citric"), "every mixture"},
		"a sheet newer than all of it": {2031, of("citric", "white"), ""},
	} {
		got := ""
		if c := r.ChangeOf(day(x.edition).Date, x.contains); c != nil {
			got = c.What
		}
		require.Equal(t, x.want, got, name)
	}
}
