package hazard

import (
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/rules"
	"wetside/testdata/published"
)

// naming is the book of classes that comes with the program.
func naming(t testing.TB) *lab.RuleBook {
	t.Helper()
	book := &lab.RuleBook{Def: lab.Def{File: "rules/classes.toml", Library: true}}
	meta, err := toml.DecodeFile(filepath.Join("..", "..", "content", "rules", "classes.toml"), book)
	require.NoError(t, err)
	require.Empty(t, meta.Undecoded())
	return book
}

// a lab that has nothing but the names of classes.
func bare(t testing.TB) *lab.Lab {
	t.Helper()
	return &lab.Lab{Rules: []*lab.RuleBook{naming(t)}}
}

// words are all class words, in order.
func words(v *lab.Vocabulary) []string {
	var out []string
	for _, c := range v.Classes() {
		out = append(out, c.Word)
	}
	return out
}

// TestLabelsOfClasses holds every class against the published list: statement
// codes and texts, signal word, pictogram. The list says of each row whether it
// was read in the law or remembered.
func TestLabelsOfClasses(t *testing.T) {
	f := published.Open(t, "clp_labels.tsv", "statement", "label of a class")
	text := func(code string) string { return f.Row("text_" + code).Text }
	v := bare(t).Vocabulary()
	seen := map[string]bool{}
	for _, id := range f.IDs() {
		if !strings.HasPrefix(id, "label_") {
			continue
		}
		r := f.Row(id)
		seen[r.Inputs] = true
		c, ok := v.Class(r.Inputs)
		require.True(t, ok, r.Inputs)
		want := strings.Split(strings.ReplaceAll(r.Text, "none", ""), "; ")
		require.Len(t, want, 3, r.Inputs)
		codes := strings.Fields(want[0])
		require.Equal(t, codes[0], c.Code, r.Inputs)
		var statement []string
		for _, code := range codes {
			statement = append(statement, text(code))
		}
		require.Equal(t, strings.Join(statement, " "), c.Statement, r.Inputs)
		require.Equal(t, want[1], c.Signal, "%s: %s", r.Inputs, r.Source)
		require.Equal(t, want[2], c.Pictogram, "%s: %s", r.Inputs, r.Source)
	}
	for _, w := range words(v) {
		require.True(t, seen[w], "no published label of %s", w)
	}
	for code, words := range naming(t).Supplements {
		require.Equal(t, text(code), words, code)
	}
}

// TestLabelsOfSubstances holds signal word and pictograms of several classes
// together against labels printed in Annex VI and worked elsewhere.
func TestLabelsOfSubstances(t *testing.T) {
	n := 0
	f := published.Open(t, "clp_labels.tsv", "label of a substance", "label of a mixture")
	for _, id := range f.IDs() {
		r := f.Row(id)
		n++
		t.Run(r.Inputs, func(t *testing.T) {
			_, words, ok := strings.Cut(r.Inputs, ": ")
			require.True(t, ok)
			k := of(bare(t), chemical("x", looked(strings.Split(words, ", "))))
			require.Len(t, k.Classes, len(strings.Split(words, ", ")), "a word that the table does not have")
			want := strings.Split(strings.ReplaceAll(r.Text, "none", ""), "; ")
			require.Equal(t, want[0], k.Signal(), r.Source)
			require.Equal(t, strings.Fields(want[1]), append([]string{}, k.Pictograms()...), r.Source)
		})
	}
	require.Greater(t, n, 25)
}

// TestOrgansOfClasses: a class of organs is found with the organs that it names, and says
// them; no other class takes anything in brackets that the table has not.
func TestOrgansOfClasses(t *testing.T) {
	v := bare(t).Vocabulary()
	for word, says := range map[string]string{
		"STOT RE 2":                        "May cause damage to organs through prolonged or repeated exposure.",
		"STOT RE 2 (thyroid)":              "May cause damage to organs (thyroid) through prolonged or repeated exposure.",
		"STOT SE 1 (optic nerve, kidneys)": "Causes damage to organs (optic nerve, kidneys).",
		"STOT RE 2 ()":                     "",
		"STOT RE 2 ( thyroid)":             "",
		"STOT RE 2 (thyroid":               "",
		"STOT RE 2 (a) (b)":                "",
		"STOT SE 3 (liver)":                "",
		"Eye Irrit. 2 (left)":              "",
		"Carc. 2 (inhalation)":             "",
	} {
		c, ok := v.Class(word)
		require.Equal(t, says != "", ok, word)
		require.Equal(t, says, c.Statement, word)
		if ok {
			require.Equal(t, word, c.Word)
		}
	}
	a, _ := v.Class("STOT RE 2 (thyroid)")
	b, _ := v.Class("STOT RE 2")
	require.Equal(t, []string{a.Code, a.Signal, a.Pictogram, a.Bare}, []string{b.Code, b.Signal, b.Pictogram, "STOT RE 2"})
}

// TestOrganHardness: a class that names its organs is no milder than one that does not, and
// harm to one organ says nothing of another.
func TestOrganHardness(t *testing.T) {
	s := &lab.Scheme{Hardest: []lab.Ladder{{Classes: []string{"STOT RE 1", "STOT RE 2"}, Organs: true}, {Classes: []string{"Carc. 1A", "Carc. 2"}}}}
	for _, c := range []struct {
		a, b string
		hard bool
	}{
		{"STOT RE 1", "STOT RE 2", true}, {"STOT RE 2", "STOT RE 1", false}, {"STOT RE 2 (thyroid)", "STOT RE 2", true}, {"STOT RE 2", "STOT RE 2 (thyroid)", true},
		{"STOT RE 1 (thyroid)", "STOT RE 2 (thyroid)", true}, {"STOT RE 2 (thyroid)", "STOT RE 1 (thyroid)", false}, {"STOT RE 1 (thyroid)", "STOT RE 2 (nerves)", false},
		{"Carc. 1A", "Carc. 2", true}, {"Carc. 2", "Carc. 1A", false}, {"Carc. 2", "STOT RE 2", false}, {"Eye Dam. 1", "Eye Dam. 1", true}, {"Eye Dam. 1", "Eye Irrit. 2", false},
	} {
		require.Equal(t, c.hard, asHard(s, c.a, c.b), "%s against %s", c.a, c.b)
	}
}

// advising is a lab that has the advice of labels.
func advising(t testing.TB) *lab.Lab {
	t.Helper()
	l := bare(t)
	book := &lab.RuleBook{Def: lab.Def{File: "rules/precautions.toml", Library: true}}
	meta, err := toml.DecodeFile(filepath.Join("..", "..", "content", "rules", "precautions.toml"), book)
	require.NoError(t, err)
	require.Empty(t, meta.Undecoded())
	l.Rules = append(l.Rules, book)
	require.Empty(t, Check(l))
	return l
}

// TestAdvice: what a label tells to do goes by the classes on it, the most urgent first, at
// most six of them, and nothing twice in other words.
func TestAdvice(t *testing.T) {
	l := advising(t)
	for _, c := range []struct {
		name    string
		classes []string
		codes   []string
	}{
		{"nothing", nil, nil},
		{"a burn: six, and no more", []string{"Skin Corr. 1B", "Carc. 2", "Aquatic Chronic 1"}, []string{"P305+P351+P338", "P303+P361+P353", "P310", "P301+P330+P331", "P308+P313", "P260"}},
		{"another kind of the same", []string{"Skin Corr. 1A"}, []string{"P305+P351+P338", "P303+P361+P353", "P310", "P301+P330+P331", "P260"}},
		{"eyes, for good", []string{"Eye Dam. 1"}, []string{"P305+P351+P338", "P310"}},
		{"eyes, for a while", []string{"Eye Irrit. 2"}, []string{"P305+P351+P338", "P337+P313"}},
		{"eyes for a while beside what is worse", []string{"Eye Irrit. 2", "Acute Tox. 3 (oral)"}, []string{"P305+P351+P338", "P310", "P270"}},
		{"harmful if swallowed", []string{"Acute Tox. 4 (oral)"}, []string{"P301+P312", "P270"}},
		{"which a burn says better", []string{"Acute Tox. 4 (oral)", "Skin Corr. 1C"}, []string{"P305+P351+P338", "P303+P361+P353", "P310", "P301+P330+P331", "P260", "P270"}},
		{"harmful through the skin", []string{"Acute Tox. 4 (dermal)"}, []string{"P302+P352"}},
		{"an allergy of the skin", []string{"Skin Sens. 1A"}, []string{"P302+P352", "P333+P313", "P261"}},
		{"which needs no second word for breath", []string{"Skin Sens. 1", "STOT RE 2 (thyroid)"}, []string{"P302+P352", "P333+P313", "P260"}},
		{"the airways", []string{"STOT SE 3 (respiratory)"}, []string{"P304+P340", "P261"}},
		{"children, by whatever effect", []string{"Repr. 1B (FD)"}, []string{"P308+P313"}},
		{"what feeds a fire", []string{"Ox. Sol. 2"}, []string{"P210", "P220"}},
		{"what burns", []string{"Flam. Liq. 2"}, []string{"P303+P361+P353", "P210"}},
		{"water", []string{"Aquatic Chronic 3"}, []string{"P273"}},
	} {
		var codes []string
		for _, a := range of(l, chemical("x", looked(c.classes))).Advice() {
			codes = append(codes, a.Code)
		}
		require.Equal(t, c.codes, codes, c.name)
	}
}

// TestOrderOfClasses: what can blow up and burn stands before what harms people,
// and that before what harms water; within a class the harder category first.
func TestOrderOfClasses(t *testing.T) {
	all := words(bare(t).Vocabulary())
	at := func(w string) int {
		i := slices.Index(all, w)
		require.GreaterOrEqual(t, i, 0, w)
		return i
	}
	for _, pair := range [][2]string{
		{"Unst. Expl.", "Ox. Sol. 1"}, {"Ox. Sol. 3", "Ox. Liq. 1"}, {"Ox. Liq. 2", "Flam. Liq. 2"}, {"Flam. Liq. 3", "Met. Corr. 1"},
		{"Met. Corr. 1", "Acute Tox. 1 (oral)"}, {"Acute Tox. 4 (oral)", "Acute Tox. 1 (dermal)"}, {"Acute Tox. 4 (dermal)", "Acute Tox. 1 (inhalation)"},
		{"Acute Tox. 4 (inhalation)", "Skin Corr. 1"}, {"Skin Irrit. 2", "Skin Sens. 1"}, {"Skin Sens. 1B", "Eye Dam. 1"}, {"Eye Irrit. 2", "Resp. Sens. 1"},
		{"Resp. Sens. 1", "STOT SE 3 (respiratory)"}, {"STOT SE 2", "STOT SE 3 (respiratory)"}, {"STOT SE 3 (narcotic)", "Muta. 1B"}, {"Muta. 2", "Carc. 1B"},
		{"Carc. 2", "Repr. 1B (FD)"}, {"Repr. 1B (FD)", "Repr. 1B (D)"}, {"Repr. 1B (D)", "Repr. 1B (F)"}, {"Repr. 1B (F)", "Repr. 2 (d)"},
		{"Repr. 2 (d)", "Repr. 2 (f)"}, {"Repr. 2", "Lact."}, {"Lact.", "STOT RE 1"}, {"STOT RE 2", "Aquatic Acute 1"}, {"Aquatic Chronic 4", "Ozone 1"},
	} {
		require.Less(t, at(pair[0]), at(pair[1]), pair)
	}
}

// TestCovers: which statements stay on a label beside which; Article 27, the
// principle from memory.
func TestCovers(t *testing.T) {
	for _, c := range []struct {
		name       string
		classes    []string
		statements []string
	}{
		{"fatal covers toxic and harmful, route by route", []string{"Acute Tox. 2 (dermal)", "Acute Tox. 3 (dermal)", "Acute Tox. 4 (dermal)", "Acute Tox. 4 (oral)"}, []string{"Harmful if swallowed.", "Fatal in contact with skin."}},
		{"organs at once: certain covers perhaps", []string{"STOT SE 1", "STOT SE 2", "STOT RE 2"}, []string{"Causes damage to organs.", "May cause damage to organs through prolonged or repeated exposure."}},
		{"cancer covers cancer by inhalation and suspicion", []string{"Carc. 1A", "Carc. 1B (inhalation)", "Carc. 2"}, []string{"May cause cancer."}},
		{"cancer by inhalation covers suspicion", []string{"Carc. 1B (inhalation)", "Carc. 2"}, []string{"May cause cancer by inhalation."}},
		{"an effect that is named stays beside one that names none", []string{"Repr. 1B", "Repr. 2 (d)"}, []string{"May damage fertility or the unborn child.", "Suspected of damaging the unborn child."}},
		{"fertility certain, unborn child suspected", []string{"Repr. 1A (Fd)", "Repr. 1B (D)"}, []string{"May damage fertility. Suspected of damaging the unborn child.", "May damage the unborn child."}},
		{"a burst can is said once", []string{"Aerosol 1", "Aerosol 3"}, []string{"Extremely flammable aerosol. Pressurised container: May burst if heated."}},
		{"piles up strongly covers piles up", []string{"PBT", "vPvB", "PMT"}, []string{"Strongly accumulates in the environment and living organisms including in humans.", "Can cause long-lasting and diffuse contamination of water resources."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.statements, of(bare(t), chemical("x", looked(c.classes))).Statements())
		})
	}
}

// TestNearClass: a slip is mended and a common spelling understood, and nothing
// else: never another category, route or class.
func TestNearClass(t *testing.T) {
	s := spellingOf(bare(t).Vocabulary())
	for _, c := range []struct{ written, meant string }{
		// Slips of the keyboard.
		{"Eye Iritt. 2", "Eye Irrit. 2"},
		{"eye irrit 2", "Eye Irrit. 2"},
		{"EyeIrrit.2", "Eye Irrit. 2"},
		{"Acute Tox. 1 (dermall)", "Acute Tox. 1 (dermal)"},
		{"Acute Tox 4 ( Oral )", "Acute Tox. 4 (oral)"},
		{"Skn Corr. 1B", "Skin Corr. 1B"},
		{"Skin Corr. 1 b", "Skin Corr. 1B"},
		{"STOT RE2", "STOT RE 2"},
		{"STOTSE 1", "STOT SE 1"},
		{"Aquatic Chornic 3", "Aquatic Chronic 3"},
		{"Self-recat. B", "Self-react. B"},
		{"Press. Gas (compresed)", "Press. Gas (compressed)"},
		{"lact", "Lact."},
		// Spellings on sheets.
		{"Skin corrosion 1B", "Skin Corr. 1B"},
		{"Skin Corr 1B", "Skin Corr. 1B"},
		{"Skin corrosion/irritation, category 2", "Skin Irrit. 2"},
		{"Skin corrosion (Sub-category 1C)", "Skin Corr. 1C"},
		{"Eye irritation, category 2", "Eye Irrit. 2"},
		{"Serious eye damage/eye irritation, Category 1", "Eye Dam. 1"},
		{"Repr. 1B; H360FD", "Repr. 1B (FD)"},
		{"Repr. 1B, H360Fd", "Repr. 1B (Fd)"},
		{"Repr. 2 H361d", "Repr. 2 (d)"},
		{"Repr. 1B FD", "Repr. 1B (FD)"},
		{"STOT SE 3; H335", "STOT SE 3 (respiratory)"},
		{"STOT SE 3 (H336)", "STOT SE 3 (narcotic)"},
		{"STOT SE 3 (respiratory tract irritation)", "STOT SE 3 (respiratory)"},
		{"Acute Tox. 4 oral", "Acute Tox. 4 (oral)"},
		{"Acute Tox. 4; H302", "Acute Tox. 4 (oral)"},
		{"Acute toxicity, oral (Category 4), H302", "Acute Tox. 4 (oral)"},
		{"Acute Tox. 3 (inhal.)", "Acute Tox. 3 (inhalation)"},
		{"Carc. 1B; H350i", "Carc. 1B (inhalation)"},
		{"Carc. 1B; H350", "Carc. 1B"},
		{"Skin sensitization 1A", "Skin Sens. 1A"},
		{"Oxidizing solids, category 2", "Ox. Sol. 2"},
		{"Flammable liquid 3", "Flam. Liq. 3"},
		{"Organic peroxide, type D", "Org. Perox. D"},
		{"Explosives, division 1.4", "Expl. 1.4"},
		{"Specific target organ toxicity - repeated exposure (Category 1), H372", "STOT RE 1"},
		{"Press. Gas (Liq.)", "Press. Gas (liquefied)"},
		{"Aerosol 1; H222, H229", "Aerosol 1"},
		{"ED HH 1; EUH380", "ED HH 1"},
		// What is no slip: another category, another route, nothing to go by.
		{"Acute Tox. 5 (oral)", ""},
		{"Acute Tox. 5 oral", ""},
		{"Acute Tox. 10 (oral)", ""},
		{"Acute Tox. 4", ""},
		{"Acute Tox. (oral)", ""},
		{"Acute Tox. 4 (eyes)", ""},
		{"Acute Tox. 4 (oral); H312", ""},
		{"Acute Tox. 3; H302", ""},
		{"Acute Tox. 4; H302, H312", ""},
		{"Acute Tox. 4 (oral, dermal)", ""},
		{"Acute Tox. 4 (oral) (dermal)", ""},
		{"STOT SE 4", ""},
		{"STOT SE 3", ""},
		{"STOT E 1", ""},
		{"STOT XE 2", ""},
		{"STOT SR 2", ""},
		{"Self-reat. 1", ""},
		{"Self-reat. B", ""},
		{"Self-react. 1", ""},
		{"STOT SE 2 (respiratory)", ""},
		{"Skin Corr. 2", ""},
		{"Skin Irrit. 1", ""},
		{"Skin Irrit. 3", ""},
		{"Eye Dam. 2", ""},
		{"Eye Irrit. 2A", ""},
		{"Eye Irrit. 2B", ""},
		{"Carc. 1", ""},
		{"Muta. 1", ""},
		{"Repr. 1", ""},
		{"Repr. 1B (fd)", ""},
		{"Repr. 1B (DF)", ""},
		{"Repr. 1B (d)", ""},
		{"Repr. 2 (FD)", ""},
		{"Repr. 1B; H360fd", ""},
		{"Repr. 1B; H361d", ""},
		{"Carc. 2 (inhalation)", ""},
		{"Aquatic Acute 2", ""},
		{"Ox. Gas 2", ""},
		{"Expl. 1.7", ""},
		{"Expl. 1", ""},
		{"Self-react. G", ""},
		{"Org. Perox. CD", ""},
		{"vPvX", ""},
		{"PT", ""},
		{"irritant", ""},
		{"Xi", ""},
		{"H319", ""},
		{"", ""},
	} {
		t.Run(c.written, func(t *testing.T) {
			require.Equal(t, c.meant, s.near(c.written))
		})
	}
}

var (
	afterClass = regexp.MustCompile(` ([0-9]\.[0-9]|[0-9][ABC]?|[A-G])( |$)`)
	inParens   = regexp.MustCompile(`\((.*)\)$`)
)

// stem, category and bracket of a word of the table, read without the table.
func cut(word string) (stem, category, bracket string) {
	if m := inParens.FindStringSubmatch(word); m != nil {
		bracket = m[1]
	}
	if m := afterClass.FindStringSubmatch(word); m != nil {
		category = m[1]
	}
	stem = inParens.ReplaceAllString(word, "")
	return strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(stem), " "+category)), category, bracket
}

// TestNearClassNeverStrays: every word of the table with one letter or sign left
// out, doubled or replaced leads back to itself or nowhere, and so does every
// word with a category, a route or an effect that it does not have.
func TestNearClassNeverStrays(t *testing.T) {
	v := bare(t).Vocabulary()
	s := spellingOf(v)
	tried, mended := 0, 0
	try := func(word, mangled string) {
		if _, ok := v.Class(mangled); ok {
			return
		}
		tried++
		got := s.near(mangled)
		if got != "" {
			mended++
			require.Equal(t, word, got, "%q", mangled)
		}
	}
	for _, word := range words(v) {
		require.Equal(t, word, s.near(word))
		for i := range word {
			try(word, word[:i]+word[i+1:])
			try(word, word[:i]+word[i:i+1]+word[i:])
			for _, r := range "xzo" {
				if c := word[i]; c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' {
					try(word, word[:i]+string(r)+word[i+1:])
				}
			}
		}
		stem, category, bracket := cut(word)
		for _, other := range []string{"", "0", "1", "1A", "1B", "1C", "2", "2A", "3", "4", "5", "1.1", "1.7", "A", "B", "G", "H"} {
			if other != category {
				strange := strings.TrimSpace(stem + " " + other)
				if bracket != "" {
					strange += " (" + bracket + ")"
				}
				if _, ok := v.Class(strange); !ok {
					require.Empty(t, s.near(strange), "%q", strange)
				}
			}
		}
		for _, other := range []string{"oral", "dermal", "inhalation", "respiratory", "narcotic", "F", "D", "FD", "Fd", "Df", "f", "d", "fd", "eyes"} {
			if other != bracket {
				strange := strings.TrimSpace(stem+" "+category) + " (" + other + ")"
				if _, ok := v.Class(strange); !ok {
					require.Empty(t, s.near(strange), "%q", strange)
				}
			}
		}
	}
	require.Greater(t, mended*2, tried, "hardly any slip is mended")
}

// libraryChemical is what this test reads of a chemical of the library.
type libraryChemical struct {
	Name    string
	Hazards *struct {
		Classes, Extra []string
		Assessed       *struct {
			By    string
			On    toml.Primitive
			Sheet string
		}
		Elsewhere []struct {
			List    string
			Classes []string
		}
	}
	Origin map[string]string
}

// TestLibrarySpeaksTheWords: every class and statement in the library is one of
// the tables', every list and origin one that is known, and what rests on nobody
// says that it is from memory.
func TestLibrarySpeaksTheWords(t *testing.T) {
	root := filepath.Join("..", "..", "content", "library")
	var sources map[string]lab.Source
	_, err := toml.DecodeFile(filepath.Join(root, "sources.toml"), &sources)
	require.NoError(t, err)
	for id, s := range sources {
		require.NotEmpty(t, s.Title, id)
		require.NotEmpty(t, s.Edition, id)
		require.GreaterOrEqual(t, s.Opened.String(), "2026-11-25", "%s was opened before there was a library", id)
		_, err := figure.ParseOrigin(s.Rank)
		require.NoError(t, err, id)
	}
	files, err := filepath.Glob(filepath.Join(root, "chemicals", "*.toml"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 30)
	sort.Strings(files)
	v := bare(t).Vocabulary()
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			var c libraryChemical
			_, err := toml.DecodeFile(file, &c)
			require.NoError(t, err)
			require.NotNil(t, c.Hazards)
			require.NotNil(t, c.Hazards.Classes, "nobody has looked")
			require.NotNil(t, c.Hazards.Assessed)
			require.NotEmpty(t, c.Hazards.Assessed.Sheet)
			seen := map[string]bool{}
			for _, w := range c.Hazards.Classes {
				_, ok := v.Class(w)
				require.True(t, ok, "%q: meant %q", w, spellingOf(v).near(w))
				require.False(t, seen[w], "%s stands twice", w)
				seen[w] = true
			}
			for _, e := range c.Hazards.Extra {
				_, ok := v.Supplement(e)
				require.True(t, ok, e)
			}
			for _, e := range c.Hazards.Elsewhere {
				require.Contains(t, sources, e.List)
				require.NotEmpty(t, e.Classes)
				stricter := false
				for _, w := range e.Classes {
					_, ok := v.Class(w)
					require.True(t, ok, "%s: %q", e.List, w)
					stricter = stricter || !seen[w]
				}
				require.True(t, stricter, "%s says nothing that the classes do not", e.List)
			}
			for key, word := range c.Origin {
				if _, ok := sources[word]; ok {
					continue
				}
				_, err := figure.ParseOrigin(word)
				require.NoError(t, err, key)
			}
			if by, ok := c.Origin["hazards.classes"]; len(c.Hazards.Classes) == 0 && (!ok || by == "memory") {
				require.Contains(t, c.Hazards.Assessed.Sheet, "from memory of suppliers’ sheets")
			}
		})
	}
}

// TestLabelsOfMixtures holds signal word, pictograms and statements of the published
// mixtures against their classes.
func TestLabelsOfMixtures(t *testing.T) {
	f := published.Open(t, "clp_mixtures.tsv", "label of classes worked out")
	for _, id := range f.IDs() {
		r := f.Row(id)
		t.Run(id, func(t *testing.T) {
			column := strings.Split(r.Text, " | ")
			l := bare(t)
			book, _ := rules.Of(l)
			k := Known{Status: Computed, rules: book}
			for _, want := range strings.Split(r.Inputs, "; ") {
				if want == "none" {
					continue
				}
				at := strings.LastIndex(want, " ")
				word, code := want[:at], want[at+1:]
				for _, w := range l.Vocabulary().Coded(code) {
					if strings.HasPrefix(w, word) && !k.Has(w) {
						k.class(l, w, "x", figure.Standard)
					}
				}
				require.True(t, k.Has(word), want)
			}
			k.finish()
			codes := []string{}
			for _, s := range k.Said() {
				codes = append(codes, s.Class.Code)
			}
			slices.Sort(codes)
			require.Equal(t, strings.Fields(strings.NewReplacer("none", "", ";", "").Replace(column[0])), codes, r.Source)
			require.Equal(t, strings.Replace(column[1], "-", "", 1), k.Signal(), r.Source)
			require.Equal(t, strings.Fields(strings.NewReplacer("-", "", ",", "").Replace(column[2])), append([]string{}, k.Pictograms()...), r.Source)
		})
	}
}
