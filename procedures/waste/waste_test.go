package waste

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

func chemical(id, name, group string) *lab.Chemical {
	c := &lab.Chemical{Name: name, Group: group, Forms: map[string]*lab.Form{"pure": {Formula: "none"}}}
	c.ID, c.File = id, "chemicals/"+id+".toml"
	return c
}

func solution(id, waste string, adds ...string) *lab.Solution {
	s := &lab.Solution{Name: id, Per: unit.MustParse[unit.Volume]("1 L"), Waste: waste}
	s.ID, s.File = id, "solutions/"+id+".toml"
	for _, a := range adds {
		s.Steps = append(s.Steps, lab.Step{Add: a + ".pure", Amount: unit.Amount{Mass: unit.MustParse[unit.Mass]("10 g")}})
	}
	return s
}

func route(id string, w lab.Waste) *lab.Waste {
	w.ID, w.File = id, "waste/"+id+".toml"
	return &w
}

// room is a lab with a drum for developers and one for silver, and three baths
// that nobody has a drum for.
func room(permit map[string]string) *mix.Mixer {
	l := &lab.Lab{
		Chemicals: []*lab.Chemical{
			chemical("sulfite", "sodium sulfite", "sulfites"), chemical("hypo", "ammonium thiosulfate", "thiosulfates"),
			chemical("citric", "citric acid", "acids, weak"), chemical("salt", "common salt", "neutral solids"), chemical("lye", "sodium hydroxide", "alkalis, strong"),
		},
		Solutions: []*lab.Solution{
			solution("developer", "developers", "sulfite"), solution("fixer", "silver", "hypo"),
			solution("stop", "stops", "citric"), solution("brine", "stops", "salt"), solution("alkali", "stops", "lye"), solution("last", "rinse", "salt"), solution("lost", "", "salt"),
		},
		Wastes: []*lab.Waste{
			route("developers", lab.Waste{Name: "used developers", Drum: "developers"}),
			route("silver", lab.Waste{Name: "silver", Drum: "silver", Never: []string{"a drain", "strong alkali: ammonia"}}),
			route("stops", lab.Waste{Name: "stop baths"}),
			route("rinse", lab.Waste{Name: "last washes", Drain: "with plenty of water"}),
		},
		Apart: []lab.Apart{{These: "sulfite or fixer", Those: "acid", Why: "sulfur dioxide"}, {These: "fixer", Those: "concentrated sulfuric acid", Why: "sulfur"}},
		Local: lab.Local{Permit: lab.Permits{Drain: permit["drain"], Treat: permit["treat"]}},
	}
	l.Index()
	bench, _ := mix.NewBench(l)
	return mix.New(l, bench, figure.NewLedger())
}

// TestStrictest: what has no drum goes to a drum and somebody is asked, whatever
// its file says of a drain, until a permit is recorded; what it must not meet is
// worked out from what is in it.
func TestStrictest(t *testing.T) {
	const own = "to a drum of its own: ask first; into no drum of this room"
	for _, c := range []struct {
		name, bath string
		permit     map[string]string
		words      string
		ask        bool
	}{
		{"a drum", "developer", nil, "to the drum for developers", false},
		{"acid, no drum", "stop", nil, own + " (with what stands there: sulfur dioxide)", true},
		{"salt meets nothing", "brine", nil, own, true},
		{"a line of the drum's own names it", "alkali", nil, own + " (with what stands there: ammonia)", true},
		{"no route at all", "lost", nil, own, true},
		{"a drain that nobody has asked for", "last", nil, own, true},
		{"a drain that was refused", "last", map[string]string{"drain": "none"}, own, true},
		{"a drain under a permit", "last", map[string]string{"drain": "letter 12"}, "down the foul drain: with plenty of water; permit letter 12", false},
		{"a permit opens no drain for what has none written", "stop", map[string]string{"drain": "letter 12"}, own + " (with what stands there: sulfur dioxide)", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := room(c.permit)
			r := Of(m, lab.Bath{Solution: m.Lab.Solution(c.bath), Strength: "stock"})
			require.Equal(t, c.words, r.Words())
			require.Equal(t, c.ask, r.Ask())
		})
	}
}

// TestNeverIn: a drum keeps out what its routes name and the other half of every
// pair, once.
func TestNeverIn(t *testing.T) {
	m := room(nil)
	require.Equal(t, []string{"let acid meet it: sulfur dioxide"}, NeverIn(m, "developers"))
	require.Equal(t, []string{"strong alkali: ammonia", "let acid meet it: sulfur dioxide", "let concentrated sulfuric acid meet it: sulfur", "a drain"}, NeverIn(m, "silver"))
}

// TestEnter: what two lines say in the same words of one substance becomes one
// line; nothing that only shares a word with another is lost, and no reason is.
func TestEnter(t *testing.T) {
	for _, c := range []struct {
		name string
		in   []line
		out  []line
	}{
		{"the same twice", []line{{"pour it down a drain", ""}, {"Pour it down a drain", ""}}, []line{{"pour it down a drain", ""}}},
		{"a reason beside none", []line{{"pour it down a drain", ""}, {"pour it down a drain", "poisons water life"}}, []line{{"pour it down a drain", "poisons water life"}}},
		{"one of a list", []line{{"let acid or a stop bath meet it", "hydrogen sulfide"}, {"let acid meet it", "sulfur dioxide, and sulfur"}}, []line{{"let acid or a stop bath meet it", "hydrogen sulfide; sulfur dioxide, and sulfur"}}},
		{"one sort of acid stands for itself", []line{{"let sulfuric acid meet it", "heat"}, {"let acid meet it", "sulfur dioxide"}}, []line{{"let sulfuric acid meet it", "heat"}, {"let acid meet it", "sulfur dioxide"}}},
		{"a mixture is no acid", []line{{"let strong alkali meet it", "ammonia"}, {"let thiourea with alkali meet it", "hydrogen sulfide"}}, []line{{"let strong alkali meet it", "ammonia"}, {"let thiourea with alkali meet it", "hydrogen sulfide"}}},
		{"bleach is not acid bleach", []line{{"let acid, acid bleach or a stop bath meet it", "sulfur dioxide"}, {"let household bleach meet it", "chloramines"}}, []line{{"let acid, acid bleach or a stop bath meet it", "sulfur dioxide"}, {"let household bleach meet it", "chloramines"}}},
		{"the longer of two reasons that begin alike", []line{{"let acid meet it", "sulfur dioxide"}, {"let acid meet it", "sulfur dioxide, sulfur"}}, []line{{"let acid meet it", "sulfur dioxide, sulfur"}}},
		{"no reason is cut", []line{{"let alkali meet it", "heat"}, {"let alkali meet it", "ammonia, and with silver on standing an explosive"}}, []line{{"let alkali meet it", "heat; ammonia, and with silver on standing an explosive"}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []line
			for _, l := range c.in {
				got = enter(got, l)
			}
			require.Equal(t, c.out, got)
		})
	}
}

// TestDeadly: what kills is read before what stinks, what has no reason last.
func TestDeadly(t *testing.T) {
	require.Greater(t, deadly("heat; ammonia, and with silver on standing an explosive"), deadly("sulfur dioxide"))
	require.Greater(t, deadly("hydrogen cyanide"), deadly("heat"))
	require.Greater(t, deadly("heat"), deadly(""))
}

// TestWhole: of a mixture a bath must have every part that is a substance.
func TestWhole(t *testing.T) {
	ammonia, alkali := part{"ammonia solution", "alkalis, weak"}, part{"sodium hydroxide", "alkalis, strong"}
	require.True(t, whole("silver with ammonia and strong alkali", []part{ammonia, alkali}))
	require.False(t, whole("silver with ammonia and strong alkali", []part{alkali}))
	require.True(t, named("silver with ammonia and strong alkali", []part{alkali}), "on a shelf any part will do")
	require.False(t, whole("standing or drying out", []part{alkali}))
	require.True(t, nameless("standing or drying out"))
}

// TestNamed: which words of a rule speak of a bath.
func TestNamed(t *testing.T) {
	citric := []part{{"citric acid", "acids, weak"}}
	for _, c := range []struct {
		side string
		bath []part
		is   bool
	}{
		{"any acid", citric, true},
		{"strong acids", citric, true},
		{"concentrated sulfuric acid", citric, false},
		{"citric acid", citric, true},
		{"an alkali", []part{{"borax", "alkalis, mild"}}, true},
		{"strong alkali", []part{{"borax", "alkalis, mild"}}, false},
		{"strong alkali", []part{{"sodium hydroxide", "alkalis, strong"}}, true},
		{"permanganate crystals", []part{{"potassium permanganate", "oxidiser permanganate, alone"}}, true},
		{"household bleach", citric, false},
		{"", citric, false},
	} {
		require.Equal(t, c.is, named(c.side, c.bath), c.side)
	}
}

// TestFull: the fill line is nine tenths of the drum, rounded down.
func TestFull(t *testing.T) {
	m := room(nil)
	m.Lab.Place.Drums = map[string]lab.Drum{"small": {Holds: unit.MustParse[unit.Volume]("5 L")}, "odd": {Holds: unit.MustParse[unit.Volume]("25.5 L")}}
	for id, want := range map[string]string{"small": "4.5", "odd": "22"} {
		r, ok := m.Book.Get(Full(m.Lab, m.Book, id, m.Lab.Place.Drums[id]))
		require.True(t, ok)
		require.Equal(t, want, r.Shown)
		require.Equal(t, "L", r.Unit)
		require.Equal(t, figure.Memory, r.Origin)
	}
}

// TestCheck finds what cannot be so in routes and drums.
func TestCheck(t *testing.T) {
	m := room(nil)
	require.Empty(t, Check(m.Lab))
	m.Lab.Place.Drums = map[string]lab.Drum{"silver": {Holds: unit.MustParse[unit.Volume]("120 L")}, "empty": {}, "none": {Holds: unit.MustParse[unit.Volume]("0 L")}}
	m.Lab.Wastes = append(m.Lab.Wastes, route("odd", lab.Waste{Drum: "silver", Drain: "away", Apart: []lab.Apart{{These: "a"}}}))
	var codes []string
	for _, p := range Check(m.Lab) {
		require.NotEmpty(t, p.Hint)
		codes = append(codes, p.Code+" "+p.At.File+" "+p.At.Key)
	}
	require.Equal(t, []string{
		"reference waste/developers.toml drum", "missing waste/odd.toml ", "shape waste/odd.toml drain", "missing waste/odd.toml apart[0]",
		"permit waste/odd.toml drain", "missing  drum.empty", "range  drum.none.holds",
	}, codes)
}

// TestPermits: nothing goes down a drain because of a word that is no permit.
func TestPermits(t *testing.T) {
	for _, c := range []struct {
		word string
		ok   bool
	}{{"", true}, {"none", true}, {"letter 12", true}, {"2026-02-03", true}, {"no", false}, {"yes", false}, {"ask the council", false}, {"None", false}} {
		t.Run(c.word, func(t *testing.T) {
			got := Check(room(map[string]string{"drain": c.word}).Lab)
			require.Equal(t, c.ok, len(got) == 0)
			if !c.ok {
				require.Equal(t, "permit", got[0].Code)
			}
		})
	}
}
