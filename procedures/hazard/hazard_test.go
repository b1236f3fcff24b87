package hazard

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mixture"
	"wetside/procedures/rules"
	"wetside/procedures/unit"
)

func chemical(name string, h *lab.Hazards) *lab.Chemical {
	c := &lab.Chemical{Name: name, Hazards: h}
	c.ID, c.File = name, "chemicals/"+name+".toml"
	return c
}

// of is what is known of a chemical by the rules of a lab and one more: somebody has
// said that it reacts with nothing in particular.
func of(l *lab.Lab, c *lab.Chemical) Known {
	with := *l
	with.Rules = append(with.Rules, &lab.RuleBook{Groups: map[string]*lab.Group{"quiet": {Name: "quiet", Names: []string{c.Name}}}})
	r, _ := rules.Of(&with)
	return OfChemical(r, c)
}

// TestUnsaidAsksForTheExtract: a substance of which nobody has said what it reacts
// like may give off a gas.
func TestUnsaidAsksForTheExtract(t *testing.T) {
	r, _ := rules.Of(&lab.Lab{})
	k := Merge(of(bare(t), chemical("quiet", looked([]string{}))), OfChemical(r, chemical("strange", looked([]string{}))))
	require.Equal(t, []string{"strange"}, k.Unsaid)
	for _, job := range []Job{Weigh, Dilute, Work, Spilled, Away} {
		require.Contains(t, Gear(job, k), Item{Word: map[bool]string{false: "extractor fan on", true: "extractor fan on, or outside"}[job == Away], Because: "nobody has said what it reacts with: strange"})
	}
}

func looked(classes []string, extra ...string) *lab.Hazards {
	return &lab.Hazards{Classes: classes, Extra: extra, Assessed: &lab.Assessed{By: "KH1", On: lab.SaidDate{Date: unit.Date{Year: 2026, Month: 1, Day: 12}}}}
}

// TestSilenceIsNeverSafety: what nobody has looked up asks for everything.
func TestSilenceIsNeverSafety(t *testing.T) {
	l := bare(t)
	for _, c := range []struct {
		name     string
		hazards  *lab.Hazards
		status   Status
		signal   string
		gear     []string
		pregnant bool
	}{
		{"nobody has looked", nil, Unknown, "", []string{"extractor fan on", "goggles", "gloves", "FFP2 dust mask", "apron"}, true},
		{"classes left out", &lab.Hazards{Extra: []string{"EUH031"}}, Unknown, "", []string{"extractor fan on", "goggles", "gloves", "FFP2 dust mask", "apron"}, true},
		{"looked, none", looked([]string{}), None, "", nil, false},
		{"an irritant", looked([]string{"Eye Irrit. 2"}), Supplied, "Warning", []string{"goggles", "gloves"}, false},
		{"gives gas with acid", looked([]string{}, "EUH031"), Supplied, "", []string{"extractor fan on"}, false},
		{"corrosive", looked([]string{"Skin Corr. 1A"}), Supplied, "Danger", []string{"goggles", "face shield", "gloves", "FFP2 dust mask", "apron", "a second person nearby"}, false},
		{"harms the unborn child", looked([]string{"Repr. 1B (FD)"}), Supplied, "Danger", []string{"extractor fan on", "goggles", "gloves", "FFP3 dust mask", "apron"}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := of(l, chemical("x", c.hazards))
			require.Equal(t, c.status, k.Status)
			require.Equal(t, c.signal, k.Signal())
			var words []string
			for _, i := range Gear(Weigh, k) {
				words = append(words, i.Word)
				require.NotEmpty(t, i.Because, "%s without a reason", i.Word)
			}
			require.Equal(t, c.gear, words)
			require.Equal(t, c.pregnant, Pregnant(Weigh, k))
		})
	}
}

// TestPackSheet: what the sheet of the lab's own pack says goes before the word of the
// library, and never below what the law has fixed; a sheet that names no class at all
// says nothing.
func TestPackSheet(t *testing.T) {
	for _, c := range []struct {
		name    string
		origin  string
		library []string
		sheet   []string
		words   []string
		status  Status
	}{
		{"milder than the law", "standard", []string{"Skin Corr. 1B"}, []string{"Skin Irrit. 2"}, []string{"Skin Corr. 1B", "Skin Irrit. 2"}, Supplied},
		{"nothing, where the law has something", "standard", []string{"Skin Corr. 1B"}, []string{}, []string{"Skin Corr. 1B"}, Supplied},
		{"milder than what was remembered", "memory", []string{"Skin Corr. 1B"}, []string{"Skin Irrit. 2"}, []string{"Skin Irrit. 2"}, Supplied},
		{"nothing, where something was remembered", "memory", []string{"Skin Corr. 1B"}, []string{}, nil, None},
		{"harder than the library", "memory", []string{}, []string{"Eye Dam. 1"}, []string{"Eye Dam. 1"}, Supplied},
		{"what nobody has looked up, by the sheet", "memory", nil, []string{"Eye Irrit. 2"}, []string{"Eye Irrit. 2"}, Supplied},
		{"a sheet without classes", "memory", []string{"Eye Dam. 1"}, nil, []string{"Eye Dam. 1"}, Supplied},
		{"and nobody has looked it up", "memory", nil, nil, nil, Unknown},
	} {
		t.Run(c.name, func(t *testing.T) {
			var h *lab.Hazards
			if c.library != nil {
				h = looked(c.library)
			}
			acid := chemical("acid", h)
			acid.Origin = lab.Origins{"all": c.origin}
			acid.Forms = map[string]*lab.Form{"pure": {Formula: "none"}}
			l := bare(t)
			l.Chemicals = []*lab.Chemical{acid}
			l.Store.Packs = []lab.Pack{{Of: "acid.pure", Sheet: &lab.PackSheet{Classes: c.sheet}}}
			l.Index()
			k := of(l, acid)
			var words []string
			for _, f := range k.Classes {
				words = append(words, f.Class.Word)
			}
			require.Equal(t, c.words, words)
			require.Equal(t, c.status, k.Status)
		})
	}
}

// TestPackSheetOfAForm: where the forms of a substance are not the same, the sheet of a pack
// speaks for its own form, and each keeps what the law has fixed for it.
func TestPackSheetOfAForm(t *testing.T) {
	acid := chemical("acid", looked([]string{"Skin Corr. 1B"}))
	acid.Origin = lab.Origins{"all": "standard"}
	acid.Forms = map[string]*lab.Form{"weak": {Formula: "none"}, "strong": {Formula: "none", Classes: []string{"Skin Corr. 1A"}}}
	l := bare(t)
	l.Chemicals = []*lab.Chemical{acid}
	l.Store.Packs = []lab.Pack{{Of: "acid.weak", Sheet: &lab.PackSheet{Classes: []string{"Met. Corr. 1"}}}}
	l.Index()
	words := func(k Known) (out []string) {
		for _, f := range k.Classes {
			out = append(out, f.Class.Word)
		}
		return out
	}
	r, problems := rules.Of(l)
	require.Empty(t, problems)
	require.Equal(t, []string{"Met. Corr. 1", "Skin Corr. 1B"}, words(OfForm(r, acid, "weak")))
	require.Equal(t, []string{"Skin Corr. 1A"}, words(OfForm(r, acid, "strong")))
	require.ElementsMatch(t, []string{"Met. Corr. 1", "Skin Corr. 1A", "Skin Corr. 1B"}, words(OfChemical(r, acid)), "without a scheme nothing is harder than another")
}

// TestMergeKeepsEverything: one unknown among known baths makes all unknown, and
// nothing known is lost.
func TestMergeKeepsEverything(t *testing.T) {
	l := bare(t)
	known := of(l, chemical("known", looked([]string{"Eye Dam. 1"}, "EUH031")))
	unknown := of(l, chemical("unknown", nil))
	both := Merge(known, unknown, known)
	require.Equal(t, Unknown, both.Status)
	require.True(t, both.Has("Eye Dam. 1"))
	require.True(t, both.HasExtra("EUH031"))
	require.Equal(t, []string{"unknown"}, both.Missing)
	require.Equal(t, []string{"known"}, both.Classes[0].Because)
	require.Equal(t, Supplied, Merge(known).Status)
}

// TestClassTable: words are unique, every class has a code and a statement.
func TestClassTable(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range bare(t).Vocabulary().Classes() {
		require.False(t, seen[c.Word], c.Word)
		seen[c.Word] = true
		require.Regexp(t, `^(EUH|H)[0-9]{3}[A-Za-z]*$`, c.Code)
		require.NotEmpty(t, c.Statement)
		require.Contains(t, []string{"Danger", "Warning", ""}, c.Signal, c.Word)
	}
	require.Equal(t, []string{"Skin Sens. 1", "Skin Sens. 1A", "Skin Sens. 1B"}, bare(t).Vocabulary().Coded("H317"))
}

// TestUnknownKeepsWhatIsKnown: one substance that nobody has looked up takes
// away nothing that another asks for.
func TestUnknownKeepsWhatIsKnown(t *testing.T) {
	l := bare(t)
	k := Merge(of(l, chemical("burns", looked([]string{"Skin Corr. 1A"}))), of(l, chemical("strange", nil)))
	require.Equal(t, Unknown, k.Status)
	words := map[string]string{}
	for _, i := range Gear(Weigh, k) {
		words[i.Word] = i.Because
	}
	require.Equal(t, "causes severe skin burns and eye damage (Skin Corr. 1A): burns", words["face shield"])
	require.Equal(t, "hazards not looked up: strange", words["extractor fan on"])
}

// TestTellingReason: every item names the class that tells most, whatever was
// found first, and which sort to take.
func TestTellingReason(t *testing.T) {
	l := &lab.Lab{Rules: []*lab.RuleBook{naming(t), {
		Groups: map[string]*lab.Group{"acid": {Name: "acid"}, "sulfite": {Name: "sulfite", Names: []string{"sodium sulfite"}}, "alkali": {Name: "alkali", Names: []string{"soda"}}},
		Apart:  []lab.Apart{{These: []string{"sulfite"}, Those: []string{"acid"}, Gives: "sulfur dioxide", Extract: true}},
	}}}
	sulfite := chemical("sodium sulfite", looked([]string{}, "EUH031"))
	sulfite.Origin = lab.Origins{"all": "memory"}
	for _, c := range []struct {
		job           Job
		known         Known
		word, because string
		kind          string
	}{
		{Weigh, of(l, chemical("agent", looked([]string{"Acute Tox. 4 (oral)", "Skin Sens. 1", "STOT RE 2"}))), "gloves", "may cause an allergic skin reaction (Skin Sens. 1): agent", "nitrile, EN ISO 374-1"},
		{Weigh, of(l, chemical("agent", looked([]string{"Acute Tox. 4 (oral)", "Skin Sens. 1"}))), "FFP2 dust mask", "may cause an allergic skin reaction (Skin Sens. 1): agent", "EN 149"},
		{Weigh, of(l, chemical("borax", looked([]string{"Repr. 1B (FD)", "Eye Irrit. 2"}))), "FFP3 dust mask", "may damage fertility, may damage the unborn child (Repr. 1B (FD)): borax", "not gas"},
		{Weigh, Merge(of(l, sulfite), of(l, chemical("acid", looked([]string{"STOT SE 3 (respiratory)"})))), "extractor fan on", "sulfur dioxide with acid: sodium sulfite", ""},
		{Weigh, of(l, chemical("x", looked([]string{"Eye Irrit. 2", "Eye Dam. 1"}))), "goggles", "causes serious eye damage (Eye Dam. 1): x", "tight"},
		{Dilute, of(l, chemical("x", looked([]string{"Eye Dam. 1"}))), "face shield above a litre", "causes serious eye damage (Eye Dam. 1): x", "more than a litre"},
		{Away, of(l, chemical("x", looked([]string{}))), "extractor fan on, or outside", "good practice: nobody knows all that was poured there before", ""},
		{Spilled, of(l, chemical("x", looked([]string{"Skin Sens. 1"}))), "FFP2 dust mask for powder", "may cause an allergic skin reaction (Skin Sens. 1): x", "EN 149"},
		{Work, of(l, chemical("x", looked([]string{"Skin Sens. 1"}))), "gloves", "may cause an allergic skin reaction (Skin Sens. 1): x", "change a thin pair at once"},
	} {
		t.Run(string(c.job)+" "+c.word, func(t *testing.T) {
			for _, i := range Gear(c.job, c.known) {
				if i.Word == c.word {
					require.Equal(t, c.because, i.Because)
					require.Contains(t, i.Kind, c.kind)
					return
				}
			}
			t.Fatalf("no %s in %v", c.word, Gear(c.job, c.known))
		})
	}
}

// TestSuperfluousStatements: a harder statement makes a milder one on the same
// label superfluous; the classes stay whole.
func TestSuperfluousStatements(t *testing.T) {
	l := bare(t)
	for _, c := range []struct {
		name       string
		classes    []string
		statements []string
	}{
		{"damage covers irritation of the eyes", []string{"Eye Dam. 1", "Eye Irrit. 2"}, []string{"Causes serious eye damage."}},
		{"a burn covers both and irritation of the skin", []string{"Skin Corr. 1B", "Skin Irrit. 2", "Eye Dam. 1", "Eye Irrit. 2"}, []string{"Causes severe skin burns and eye damage."}},
		{"long lasting covers the acute one", []string{"Aquatic Acute 1", "Aquatic Chronic 1", "Aquatic Chronic 3"}, []string{"Very toxic to aquatic life with long lasting effects."}},
		{"the acute one alone stays", []string{"Aquatic Acute 1", "Aquatic Chronic 2"}, []string{"Very toxic to aquatic life.", "Toxic to aquatic life with long lasting effects."}},
		{"irritation of skin is another matter than damage to eyes", []string{"Skin Irrit. 2", "Eye Dam. 1"}, []string{"Causes skin irritation.", "Causes serious eye damage."}},
		{"unborn child and fertility are two matters", []string{"Repr. 1B (D)", "Repr. 2 (f)", "Repr. 2 (d)"}, []string{"May damage the unborn child.", "Suspected of damaging fertility."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := of(l, chemical("x", looked(c.classes)))
			require.Equal(t, c.statements, k.Statements())
			require.Len(t, k.Classes, len(c.classes))
		})
	}
	codes := map[string]bool{}
	for _, c := range bare(t).Vocabulary().Classes() {
		codes[c.Code] = true
	}
	for code, list := range naming(t).Covers {
		require.True(t, codes[code], code)
		for _, milder := range list {
			require.True(t, codes[milder] && milder != code, milder)
		}
	}
}

// TestNamesKeepTheirOrigin: what is only remembered says so, name by name.
func TestNamesKeepTheirOrigin(t *testing.T) {
	l := bare(t)
	sure := chemical("metabisulfite", looked([]string{}, "EUH031"))
	sure.Origin = lab.Origins{"all": "standard"}
	weak := chemical("sulfite", looked([]string{}, "EUH031"))
	weak.Origin = lab.Origins{"all": "memory"}
	k := Merge(of(l, sure), of(l, weak))
	require.Equal(t, "metabisulfite, sulfite (memory)", k.Extra[0].Names())
	looked, remembered := k.Clear()
	require.Equal(t, "metabisulfite", looked)
	require.Equal(t, "sulfite", remembered)
}

// TestGasesTogether: what gives off one gas with one thing stands in one line, by the
// weakest word among them; another gas in another.
func TestGasesTogether(t *testing.T) {
	l := &lab.Lab{Rules: []*lab.RuleBook{naming(t), {
		Groups: map[string]*lab.Group{"acid": {Name: "acid", About: true}, "sulfite": {Name: "sulfite", Names: []string{"white", "grey"}}, "fixer": {Name: "fixer", Names: []string{"hypo"}}, "green": {Name: "green", Names: []string{"hypo"}}},
		Apart: []lab.Apart{
			{These: []string{"sulfite"}, Those: []string{"acid"}, Gives: "sulfur dioxide", Extract: true},
			{These: []string{"fixer"}, Those: []string{"acid"}, Gives: "sulfur dioxide", Extract: true},
			{These: []string{"green"}, Those: []string{"acid"}, Gives: "chlorine", Extract: true},
			{These: []string{"sulfite"}, Those: []string{"acid"}, Gives: "ammonia"},
		},
	}}}
	k := Merge(of(l, chemical("white", looked([]string{}))), of(l, chemical("grey", looked([]string{}))), of(l, chemical("hypo", looked([]string{}))))
	var lines []string
	for _, g := range k.Gives() {
		lines = append(lines, g.Words())
	}
	require.Equal(t, []string{"chlorine with acid: hypo", "sulfur dioxide with acid: grey, white, hypo"}, lines)
}

// TestOneVapour: a single volatile liquid is enough for the extract.
func TestOneVapour(t *testing.T) {
	c := chemical("vinegar", looked([]string{"Skin Corr. 1A"}))
	c.Volatile = true
	require.Contains(t, Gear(Work, of(bare(t), c)), Item{Word: "extractor fan on", Because: "gives off vapour: vinegar"})
}

// TestAskedForAJob: what a caution asks for at the scale is not asked for at the tray.
func TestAskedForAJob(t *testing.T) {
	k := of(bare(t), chemical("x", looked([]string{}))).With(Weigh, "take tongs")
	has := func(job Job) bool {
		return slices.ContainsFunc(Gear(job, k), func(i Item) bool { return i.Word == "tongs" })
	}
	require.True(t, has(Weigh))
	require.False(t, has(Work))
	require.True(t, slices.ContainsFunc(Gear(Work, k.With("", "take tongs")), func(i Item) bool { return i.Word == "tongs" }))
}

func acid(low, value, high unit.Factor, worked bool) Acidity {
	return Acidity{PH: mixture.PH{Known: true, Low: low, Value: value, High: high}, Worked: worked, Shown: "shown"}
}

// TestFloors: no class lowers what a pH, an allergy, a stain or a gas asks for, and each
// limit holds from its own value on. The limits are our own rules.
func TestFloors(t *testing.T) {
	for _, c := range []struct {
		name string
		k    Known
		want []string // at the tray
	}{
		{"nothing", Known{Status: Computed}, nil},
		{"pH 3.0 splashes", Known{Status: Computed, Acidity: acid(3, 3, 3, false)}, []string{"goggles"}},
		{"pH 3.1 does not", Known{Status: Computed, Acidity: acid(3.1, 3.1, 3.1, false)}, nil},
		{"pH 11.0 splashes", Known{Status: Computed, Acidity: acid(11, 11, 11, false)}, []string{"goggles"}},
		{"pH 10.9 does not", Known{Status: Computed, Acidity: acid(10.9, 10.9, 10.9, false)}, nil},
		{"by its worse bound", Known{Status: Computed, Acidity: acid(10.8, 10.9, 11, false)}, []string{"goggles"}},
		{"pH 2.0 burns", Known{Status: Computed, Acidity: acid(2, 2, 2, false)}, []string{"goggles tight", "face shield to pour", "gloves long cuff"}},
		{"pH 2.1, measured, does not", Known{Status: Computed, Acidity: acid(2.1, 2.1, 2.1, false)}, []string{"goggles"}},
		{"pH 2.3, worked out, counts as if", Known{Status: Computed, Acidity: acid(2.3, 2.3, 2.3, true)}, []string{"goggles tight", "face shield to pour", "gloves long cuff"}},
		{"pH 2.4, worked out, does not", Known{Status: Computed, Acidity: acid(2.4, 2.4, 2.4, true)}, []string{"goggles"}},
		{"pH 11.5 burns", Known{Status: Computed, Acidity: acid(11.5, 11.5, 11.5, false)}, []string{"goggles tight", "face shield to pour", "gloves long cuff"}},
		{"pH 11.2, worked out, counts as if", Known{Status: Computed, Acidity: acid(11.2, 11.2, 11.2, true)}, []string{"goggles tight", "face shield to pour", "gloves long cuff"}},
		{"pH 11.2, measured, splashes", Known{Status: Computed, Acidity: acid(11.2, 11.2, 11.2, false)}, []string{"goggles"}},
		{"a named sensitiser", Known{Status: Computed, Extra: []Found{{Code: "EUH208", Because: []string{"agent"}, Who: []figure.Origin{figure.Standard}}}}, []string{"gloves", "tongs"}},
		{"a statement that is none", Known{Status: Computed, Extra: []Found{{Code: "EUH210", Because: []string{"agent"}, Who: []figure.Origin{figure.Standard}}}}, nil},
		{"an unsaid part of what its supplier classified", Known{Status: Supplied, Unlooked: []string{"secret"}}, []string{"goggles", "gloves"}},
		{"what another voice says", Known{Status: Computed, More: []Found{classOf(t, "Eye Dam. 1")}}, []string{"goggles tight", "gloves"}},
		{"what another list says", Known{Status: Computed, Elsewhere: []Found{classOf(t, "Eye Irrit. 2")}}, []string{"goggles", "gloves"}},
	} {
		var got []string
		for _, i := range Gear(Work, c.k) {
			got = append(got, strings.TrimSpace(i.Word+" "+i.Sort))
			require.NotEmpty(t, i.Because, c.name)
		}
		require.Equal(t, c.want, got, c.name)
	}
}

func classOf(t *testing.T, word string) Found {
	t.Helper()
	c, ok := bare(t).Vocabulary().Class(word)
	require.True(t, ok)
	return Found{Class: c, Statement: c.Statement, Because: []string{"x"}, Who: []figure.Origin{figure.Standard}}
}

// TestEnoughGas: a bath asks for the extract from a litre of sulfur dioxide a kilogram on, all
// sources together; where nobody can count them, it asks.
func TestEnoughGas(t *testing.T) {
	l := &lab.Lab{Rules: []*lab.RuleBook{naming(t), {
		Groups: map[string]*lab.Group{"acid": {Name: "acid", About: true}, "sulfite": {Name: "sulfite", Names: []string{"white"}}, "sulfide": {Name: "sulfide", Names: []string{"foul"}}},
		Apart: []lab.Apart{{These: []string{"sulfite"}, Those: []string{"acid"}, Gives: "sulfur dioxide", Extract: true},
			{These: []string{"sulfide"}, Those: []string{"acid"}, Gives: "hydrogen sulfide", Extract: true}},
	}}}
	white, foul := of(l, chemical("white", looked([]string{}))), of(l, chemical("foul", looked([]string{})))
	for _, c := range []struct {
		name string
		k    Known
		so2  SO2
		fan  bool
	}{
		{"a litre", white, SO2{true, 1}, true}, {"less", white, SO2{true, 0.99}, false}, {"uncounted", white, SO2{false, 0.5}, true}, {"another gas", foul, SO2{true, 0}, true},
	} {
		c.k.SO2 = c.so2
		require.Equal(t, c.fan, slices.ContainsFunc(Gear(Work, c.k), func(i Item) bool { return i.Word == "extractor fan on" }), c.name)
	}
}

// TestPersons: what first aid hangs on.
func TestPersons(t *testing.T) {
	with := func(words ...string) Known {
		k := Known{Status: Computed}
		for _, w := range words {
			k.Classes = append(k.Classes, classOf(t, w))
		}
		return k
	}
	for _, c := range []struct {
		name                       string
		k                          Known
		burns, lingers, lungs, eye bool
	}{
		{"nothing", with(), false, false, false, false},
		{"unknown", Known{Status: Unknown}, true, true, true, false},
		{"burns", with("Skin Corr. 1B"), true, false, true, false},
		{"eyes alone", with("Eye Dam. 1"), true, false, false, false},
		{"irritates", with("Eye Irrit. 2", "Skin Irrit. 2"), false, false, false, false},
		{"a strong acid without a class", Known{Status: Computed, Acidity: acid(1.9, 1.9, 1.9, false)}, true, false, false, false},
		{"alkaline", Known{Status: Computed, Acidity: acid(11, 11, 11, false)}, false, false, false, true},
		{"hardly", Known{Status: Computed, Acidity: acid(10.9, 10.9, 10.9, false)}, false, false, false, false},
		{"poisonous to breathe", with("Acute Tox. 4 (inhalation)"), false, false, true, false},
		{"poisonous to swallow", with("Acute Tox. 3 (oral)"), false, true, false, false},
		{"harmful to swallow", with("Acute Tox. 4 (oral)"), false, false, false, false},
		{"the unborn child", with("Repr. 2 (d)"), false, true, false, false},
	} {
		require.Equal(t, c.burns, c.k.Burns(), c.name)
		require.Equal(t, c.lingers, c.k.Lingers(), c.name)
		require.Equal(t, c.lungs, c.k.LaterInLungs(), c.name)
		require.Equal(t, c.eye, c.k.Caustic(), c.name)
	}
	require.True(t, Known{Parts: []Part{{Dust: true}}}.DustOnly())
	require.False(t, Known{Parts: []Part{{Dust: true}, {}}}.DustOnly())
	require.False(t, Known{}.DustOnly())
}

// TestBurnsBy: what burns by its pH and has no class of burning says so on its label, and is rinsed like
// what has one.
func TestBurnsBy(t *testing.T) {
	l := advising(t)
	eye, _ := l.Vocabulary().Class("Eye Dam. 1")
	irritant, _ := l.Vocabulary().Class("Eye Irrit. 2")
	at := func(low, high float64) Acidity {
		return Acidity{PH: mixture.PH{Known: true, Low: unit.Factor(low), Value: unit.Factor((low + high) / 2), High: unit.Factor(high)}, Shown: "x"}
	}
	for name, c := range map[string]struct {
		acidity Acidity
		classes []lab.Class
		want    string
	}{
		"alkaline enough":         {at(11.4, 11.5), nil, "x"},
		"not quite":               {at(11.3, 11.49), nil, ""},
		"acid enough":             {at(2, 2.2), nil, "x"},
		"not acid enough":         {at(2.01, 2.2), nil, ""},
		"nobody knows":            {Acidity{}, nil, ""},
		"a class says so already": {at(13, 13), []lab.Class{eye}, ""},
		"a milder class does not": {at(13, 13), []lab.Class{irritant}, "x"},
	} {
		k := Known{Acidity: c.acidity, rules: &rules.Rules{Lab: l}}
		for _, class := range c.classes {
			k.Classes = append(k.Classes, Found{Class: class})
		}
		require.Equal(t, c.want, k.BurnsBy(), name)
		rinse := slices.ContainsFunc(k.Advice(), func(a lab.Advice) bool { return a.Code == "P305+P351+P338" })
		require.Equal(t, c.want != "" || len(c.classes) > 0, rinse, name)
	}
}
