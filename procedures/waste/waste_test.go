package waste

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/rules"
	"wetside/procedures/unit"
)

func chemical(id, name string) *lab.Chemical {
	c := &lab.Chemical{Name: name, Forms: map[string]*lab.Form{"pure": {Formula: "none"}}}
	c.ID, c.File = id, "chemicals/"+id+".toml"
	return c
}

func solution(id, waste string, adds ...string) *lab.Solution {
	s := &lab.Solution{Name: id, Per: lab.Say[unit.Volume]("1 L"), Waste: waste}
	s.ID, s.File = id, "solutions/"+id+".toml"
	for _, a := range adds {
		s.Steps = append(s.Steps, lab.Step{Add: a + ".pure", Amount: lab.Amount{Mass: lab.Say[unit.Mass]("10 g")}})
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
			chemical("sulfite", "sodium sulfite"), chemical("hypo", "ammonium thiosulfate"),
			chemical("citric", "citric acid"), chemical("salt", "common salt"), chemical("lye", "sodium hydroxide"),
		},
		Solutions: []*lab.Solution{
			solution("developer", "developers", "sulfite"), solution("fixer", "silver", "hypo"),
			solution("stop", "stops", "citric"), solution("brine", "stops", "salt"), solution("alkali", "stops", "lye"), solution("last", "rinse", "salt"), solution("lost", "", "salt"),
		},
		Wastes: []*lab.Waste{
			route("developers", lab.Waste{Name: "used developers", Drum: "developers"}),
			route("silver", lab.Waste{Name: "silver", Drum: "silver", Never: []string{"a drain"}}),
			route("stops", lab.Waste{Name: "stop baths"}),
			route("rinse", lab.Waste{Name: "last washes", Drain: "with plenty of water"}),
		},
		Rules: []*lab.RuleBook{{
			Groups: map[string]*lab.Group{
				"sulfites": {Name: "sulfite", Members: []string{"sulfite"}}, "fixers": {Name: "fixer", Members: []string{"hypo"}}, "acid": {Name: "acid", Members: []string{"citric"}},
				"alkalis": {Name: "strong alkali", Members: []string{"lye"}}, "iodine": {Name: "iodine"}, "bleach": {Name: "household bleach", About: true},
			},
			Apart: []lab.Apart{
				{These: []string{"fixers"}, Those: []string{"bleach"}, Gives: "heat"},
				{These: []string{"sulfites", "fixers"}, Those: []string{"acid"}, Gives: "sulfur dioxide"},
				{These: []string{"fixers"}, Those: []string{"alkalis"}, Gives: "ammonia", Note: "it smells"},
				{These: []string{"fixers"}, Those: []string{"iodine"}, Gives: "heat"},
				{These: []string{"fixers"}, Those: []string{"acid"}, Gives: "explosive", Note: "crystals", Concentrate: true},
			},
		}},
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
	for _, c := range []struct {
		name, bath  string
		permit      map[string]string
		drum, drain string
		not         []string
	}{
		{"a drum", "developer", nil, "developers", "", nil},
		{"acid, no drum", "stop", nil, "", "", []string{"developers: sulfur dioxide", "silver: sulfur dioxide"}},
		{"salt meets nothing", "brine", nil, "", "", nil},
		{"alkali stays out of the fixer only", "alkali", nil, "", "", []string{"silver: ammonia, it smells"}},
		{"no route at all", "lost", nil, "", "", nil},
		{"a drain that nobody has asked for", "last", nil, "", "", nil},
		{"a drain that was refused", "last", map[string]string{"drain": "none"}, "", "", nil},
		{"a drain under a permit", "last", map[string]string{"drain": "letter 12"}, "", "with plenty of water", nil},
		{"a permit opens no drain for what has none written", "stop", map[string]string{"drain": "letter 12"}, "", "", []string{"developers: sulfur dioxide", "silver: sulfur dioxide"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := room(c.permit)
			r := Of(m, lab.Bath{Solution: m.Lab.Solution(c.bath), Strength: "stock"})
			require.Equal(t, c.drum, r.Drum)
			require.Equal(t, c.drain, r.Drain)
			require.Equal(t, c.drum == "" && c.drain == "", r.Ask())
			var not []string
			for _, n := range r.Not {
				require.Len(t, n.Why, 1)
				not = append(not, n.Drum+": "+n.Why[0].Reason())
			}
			require.Equal(t, c.not, not)
		})
	}
}

func diluted(text string) lab.SaidDilution {
	var d lab.SaidDilution
	if err := d.UnmarshalText([]byte(text)); err != nil {
		panic(err)
	}
	return d
}

// TestConcentrate: what others are diluted from and no process works in is no spent
// bath; a permit for the drain does not speak of it.
func TestConcentrate(t *testing.T) {
	m := room(map[string]string{"drain": "letter 12"})
	s := m.Lab.Solution("last")
	s.Strengths = map[string]*lab.Strength{"working": {Dilute: diluted("1+9")}, "odd": {Dilute: diluted("1+4")}}
	m.Lab.Index()
	of := func(strength string) lab.Bath { return lab.Bath{Solution: s, Strength: strength} }
	require.True(t, Concentrate(m.Lab, of("stock")))
	require.False(t, Concentrate(m.Lab, of("working")))
	require.Empty(t, Of(m, of("stock")).Drain)
	require.True(t, Of(m, of("stock")).Ask())
	require.Equal(t, "with plenty of water", Of(m, of("working")).Drain)
	p := &lab.Process{Steps: []lab.ProcessStep{{ID: "rinse", Bath: "last.working"}}}
	m.Lab.Processes = []*lab.Process{p}
	m.Lab.Index()
	require.True(t, Concentrate(m.Lab, of("stock")), "another strength of it is used")
	p.Steps = append(p.Steps, lab.ProcessStep{ID: "last", Bath: "last.stock"})
	m.Lab.Index()
	require.False(t, Concentrate(m.Lab, of("stock")), "a process works in it as it is")
	require.Equal(t, "with plenty of water", Of(m, of("stock")).Drain)
}

// TestNeverIn: a drum keeps out what its routes name and the other half of every
// pair, once, as far as the other half may stand in the lab.
func TestNeverIn(t *testing.T) {
	meets := func(n Never, r *rules.Rules) []string {
		var out []string
		for _, m := range n.Meets {
			out = append(out, r.Side(m.Other)+": "+m.Pairs[0].Reason())
		}
		return out
	}
	m := room(nil)
	require.Equal(t, []string{"acid: sulfur dioxide"}, meets(NeverIn(m, "developers"), m.Rules))
	silver := NeverIn(m, "silver")
	require.Equal(t, []string{"acid: sulfur dioxide", "strong alkali: ammonia, it smells", "household bleach: heat"}, meets(silver, m.Rules))
	require.Equal(t, []string{"a drain"}, silver.Lines)
	require.False(t, silver.Alone)
	require.Equal(t, []string{"sulfite or fixer: sulfur dioxide", "fixer: ammonia, it smells"}, meets(NeverWith(m, m.Lab.WasteRoute("stops")), m.Rules))
}

// TestAlone: a drum that takes nothing else takes nothing else, though nothing would
// happen.
func TestAlone(t *testing.T) {
	m := room(nil)
	m.Lab.WasteRoute("silver").Alone = true
	r := Of(m, lab.Bath{Solution: m.Lab.Solution("brine"), Strength: "stock"})
	require.Len(t, r.Not, 1)
	require.True(t, r.Not[0].Alone)
	require.True(t, NeverIn(m, "silver").Alone)
	require.Empty(t, Check(m.Lab))
	m.Lab.WasteRoute("rinse").Drum, m.Lab.WasteRoute("rinse").Drain = "silver", ""
	got := Check(m.Lab)
	require.Len(t, got, 1)
	require.Equal(t, "apart", got[0].Code)
}

// TestTogether: two routes whose baths never meet cannot share a drum; a bath that is
// both sides by itself has come to rest.
func TestTogether(t *testing.T) {
	m := room(nil)
	m.Lab.WasteRoute("stops").Drum = "silver"
	got := Check(m.Lab)
	require.Len(t, got, 2, "acid and alkali, each with the fixer")
	require.Contains(t, got[0].What+got[1].What, "which never meet: sulfur dioxide")
	m.Lab.Solution("fixer").Steps = append(m.Lab.Solution("fixer").Steps, lab.Step{Add: "citric.pure"}, lab.Step{Add: "lye.pure"})
	require.Empty(t, Check(m.Lab))
	r, _ := rules.Of(m.Lab)
	got = Together(r)
	require.Len(t, got, 2, "more acid and more alkali still free their gas")
	for _, p := range got {
		require.True(t, p.Warning, "a fixer that is both by itself has come to rest")
	}
	require.Contains(t, got[0].What+got[1].What, "which holds some acid already, and stop, which brings more of it: sulfur dioxide")
}

// TestFull: the fill line is nine tenths of the drum, rounded down.
func TestFull(t *testing.T) {
	m := room(nil)
	m.Lab.Place.Drums = map[string]lab.Drum{"small": {Holds: lab.Say[unit.Volume]("5 L")}, "odd": {Holds: lab.Say[unit.Volume]("25.5 L")}}
	for id, want := range map[string]string{"small": "4.5", "odd": "22"} {
		r := Full(m.Book, id, m.Lab.Place.Drums[id])
		require.Equal(t, want, r.Shown)
		require.Equal(t, "L", r.Unit)
		require.Equal(t, figure.Memory, r.Origin)
	}
}

// TestCheck finds what cannot be so in routes and drums.
func TestCheck(t *testing.T) {
	m := room(nil)
	require.Empty(t, Check(m.Lab))
	m.Lab.Place.Drums = map[string]lab.Drum{"silver": {Holds: lab.Say[unit.Volume]("120 L")}, "empty": {}, "none": {Holds: lab.Say[unit.Volume]("0 L")}}
	m.Lab.Wastes = append(m.Lab.Wastes, route("odd", lab.Waste{Drum: "silver", Drain: "away", Apart: []lab.Apart{{These: []string{"hypo"}}}}))
	var codes []string
	for _, p := range Check(m.Lab) {
		require.NotEmpty(t, p.Hint)
		codes = append(codes, p.Code+" "+p.At.File+" "+p.At.Key)
	}
	require.Equal(t, []string{
		"reference waste/developers.toml drum", "missing waste/odd.toml ", "shape waste/odd.toml drain",
		"permit waste/odd.toml drain", "missing waste/odd.toml apart[0]", "missing waste/odd.toml apart[0]", "missing  drum.empty", "range  drum.none.holds",
	}, codes)
}

// TestOneDrum: with a single drum in the lab a route to another is a fault, too.
func TestOneDrum(t *testing.T) {
	m := room(nil)
	m.Lab.Place.Drums = map[string]lab.Drum{"silver": {Holds: lab.Say[unit.Volume]("20 L")}}
	got := Check(m.Lab)
	require.Len(t, got, 1)
	require.Equal(t, "reference waste/developers.toml drum", got[0].Code+" "+got[0].At.File+" "+got[0].At.Key)
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
