package mixture

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/require"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
	"wetside/testdata/published"
)

// shipped is the scheme that comes with the program.
func shipped(t testing.TB) *lab.Scheme {
	t.Helper()
	raw, err := os.ReadFile("../../content/rules/mixtures.toml")
	require.NoError(t, err)
	return read(t, string(raw))
}

func read(t testing.TB, text string) *lab.Scheme {
	t.Helper()
	var book lab.RuleBook
	meta, err := toml.Decode(text, &book)
	require.NoError(t, err)
	require.Empty(t, meta.Undecoded())
	return book.Scheme
}

// five is the piece of the scheme of the United Nations that a published example wants: it
// has a fifth category of what is swallowed, which the law of the European Union has not.
// Source: ST/SG/AC.10/C.4/2008/23, Annex 2, example 1, and the bounds of Table 3.1.1.
const five = `
[scheme]
name = "UN GHS, in part"
untested = "10 % w/w"
[[scheme.acute]]
way = "oral"
table = "Table 3.1.1"
step = [
  { class = "Acute Tox. 1 (oral)", up_to = "5 mg/kg", taken = "0.5 mg/kg", counts = "0.1 % w/w" },
  { class = "Acute Tox. 2 (oral)", up_to = "50 mg/kg", taken = "5 mg/kg", counts = "0.1 % w/w" },
  { class = "Acute Tox. 3 (oral)", up_to = "300 mg/kg", taken = "100 mg/kg", counts = "0.1 % w/w" },
  { class = "Acute Tox. 4 (oral)", up_to = "2000 mg/kg", taken = "500 mg/kg", counts = "1 % w/w" },
  { up_to = "5000 mg/kg", taken = "2500 mg/kg", counts = "1 % w/w" },
]
`

// mixed is a mixture as a row of the published file writes it.
type mixed struct {
	Contains map[string]lab.Share
	PH       lab.Said[unit.Factor]
	Extra    map[string]string
	Gas      map[string]lab.Said[unit.VolumePerMass]
	Together map[string]string
	Tested   map[string]map[string]string
	Acid     map[string]bool
	Alkali   map[string]bool
	Scheme   string
}

func (m mixed) parts() []Part {
	var names []string
	for n := range m.Contains {
		names = append(names, n)
	}
	slices.Sort(names)
	var out []Part
	for _, n := range names {
		s := m.Contains[n]
		p := Part{Name: n, Low: s.Of.Low(), Share: s.Of.Value(), High: s.Of.High(), Classes: s.Classes, InMixtures: s.InMixtures, Unknown: s.Classes == nil,
			Together: m.Together[n], Tested: m.Tested[n], Acid: m.Acid[n], Alkali: m.Alkali[n]}
		if e := m.Extra[n]; e != "" {
			p.Extra = []string{e}
		}
		if g, ok := m.Gas[n]; ok {
			p.Gas = g.Value()
		}
		out = append(out, p)
	}
	return out
}

func (m mixed) ph() PH {
	return PH{m.PH.Given(), m.PH.Low(), m.PH.Value(), m.PH.High()}
}

func ask(t testing.TB, inputs string) Answer {
	t.Helper()
	m := decoded(t, inputs)
	s := shipped(t)
	if m.Scheme == "UN" {
		s = read(t, five)
	}
	return Classify(s, m.parts(), m.ph())
}

func decoded(t testing.TB, inputs string) mixed {
	t.Helper()
	var m mixed
	meta, err := toml.Decode(strings.ReplaceAll(inputs, " ;; ", "\n"), &m)
	require.NoError(t, err, inputs)
	for _, k := range meta.Undecoded() {
		require.Equal(t, "contains", k[0], inputs)
	}
	return m
}

var code = regexp.MustCompile(` H[0-9]+[A-Za-z]*$`)

func words(a Answer) []string {
	out := []string{}
	for _, f := range a.Found {
		word, _, _ := strings.Cut(f.Class, " (")
		out = append(out, word)
	}
	slices.Sort(out)
	return out
}

func codes(a Answer) []string {
	out := []string{}
	for _, f := range a.Extra {
		word := f.Code
		if f.Code == "EUH208" {
			var names []string
			for _, b := range f.By {
				names = append(names, b.Part.Name)
			}
			slices.Sort(names)
			word += "(" + strings.Join(names, ", ") + ")"
		}
		out = append(out, word)
	}
	slices.Sort(out)
	return out
}

// TestPublishedMixtures: thirty mixtures get all and only the classes that the published
// rules give them.
func TestPublishedMixtures(t *testing.T) {
	f := published.Open(t, "clp_mixtures.tsv", "class of a mixture")
	for _, id := range f.IDs() {
		r := f.Row(id)
		t.Run(id, func(t *testing.T) {
			got := ask(t, r.Inputs)
			column := strings.Split(r.Text, " | ")
			want, extra := []string{}, []string{}
			if column[0] != "none" {
				for _, w := range strings.Split(column[0], "; ") {
					want = append(want, code.ReplaceAllString(w, ""))
				}
			}
			if column[1] != "-" {
				for _, w := range strings.Split(column[1], ";") {
					names := strings.TrimSuffix(strings.TrimPrefix(w, "EUH208("), ")")
					if names != w {
						list := strings.Split(names, ", ")
						slices.Sort(list)
						w = "EUH208(" + strings.Join(list, ", ") + ")"
					}
					extra = append(extra, strings.TrimSpace(w))
				}
			}
			slices.Sort(want)
			slices.Sort(extra)
			require.Equal(t, want, words(got), r.Source)
			require.Equal(t, extra, codes(got), r.Source)
		})
	}
}

// TestWasteProperties: waste has all and only the properties that the limits of the Annex give it, on
// both sides of each.
func TestWasteProperties(t *testing.T) {
	raw, err := os.ReadFile("../../content/rules/properties.toml")
	require.NoError(t, err)
	var book lab.RuleBook
	meta, err := toml.Decode(string(raw), &book)
	require.NoError(t, err)
	require.Empty(t, meta.Undecoded())
	f := published.Open(t, "waste_properties.tsv", "property of waste")
	for _, id := range f.IDs() {
		r := f.Row(id)
		m := decoded(t, r.Inputs)
		var plain []Part
		for _, p := range m.parts() {
			plain = append(plain, p.Plain())
		}
		got := words(Classify(book.Properties, plain, m.ph()))
		want := []string{}
		if r.Text != "none" {
			want = strings.Split(r.Text, "; ")
			slices.Sort(want)
		}
		require.Equal(t, want, got, "%s: %s (%s)", id, r.Inputs, r.Source)
	}
}

// TestBoundaries: what lies on both sides of a limit, worked out by hand from the tables of
// Annex I; substances and contents as they are met in a darkroom.
func TestBoundaries(t *testing.T) {
	const (
		lye    = `"sodium hydroxide" = { share = "%s %% w/w", classes = ["Skin Corr. 1A"], limits = { "Skin Corr. 1A" = "5 %% w/w", "Skin Corr. 1B" = "2 %% w/w", "Skin Irrit. 2" = "0.5 %% w/w", "Eye Irrit. 2" = "0.5 %% w/w" } }`
		soda   = `"sodium carbonate" = { share = "%s %% w/w", classes = ["Eye Irrit. 2"] }`
		urea   = `"thiourea" = { share = "%s %% w/w", classes = ["Acute Tox. 4 (oral)", "Carc. 2", "Repr. 2 (d)", "Aquatic Chronic 2"] }`
		quinol = `"hydroquinone" = { share = "%s %% w/w", classes = ["Carc. 2"] }`
		metol  = `"metol" = { share = "%s %% w/w", classes = ["Acute Tox. 4 (oral)", "STOT RE 2", "Skin Sens. 1", "Aquatic Acute 1", "Aquatic Chronic 1"] }`
		meta   = `"metabisulfite" = { share = "%s %% w/w", classes = ["Eye Dam. 1"]%s }`
		edta   = `"EDTA" = { share = "%s %% w/w", classes = ["Acute Tox. 4 (oral)", "Eye Dam. 1"] }`
		iodide = `"iodide" = { share = "%s %% w/w", classes = ["STOT RE 1"] }`
		oxygen = `"peroxide" = { share = "%s %% w/w", classes = [], limits = { "Skin Corr. 1A" = "70 %% w/w", "Skin Corr. 1B" = "50 %% w/w", "Skin Irrit. 2" = "35 %% w/w", "Eye Dam. 1" = "8 %% w/w", "Eye Irrit. 2" = "5 %% w/w" } }`
		spirit = `"isopropanol" = { share = "%s %% w/w", classes = ["Eye Irrit. 2", "STOT SE 3 (narcotic)"] }`
	)
	of := func(form string, with ...any) string { return fmt.Sprintf(form, with...) }
	for _, c := range []struct {
		name, contains, more string
		want, extra          []string
		unsure               string
	}{
		{"hydroquinone about 1 %", of(quinol, "0.982..1.019"), "", []string{"Carc. 2"}, nil, "Carc. 2"},
		{"hydroquinone 0.99 %", of(quinol, "0.99"), "", nil, []string{"EUH210"}, ""},
		{"metol below what names it", of(metol, "0.0999"), "", nil, nil, ""},
		{"metol named", of(metol, "0.1"), "", nil, []string{"EUH208(metol)", "EUH210"}, ""},
		{"metol harms water", of(metol, "0.25"), "", []string{"Aquatic Chronic 3"}, []string{"EUH208(metol)"}, ""},
		{"two that damage eyes add up", of(edta, "1.09") + ", " + of(meta, "2.10", ""), "", []string{"Eye Dam. 1"}, nil, ""},
		{"a tenth of it", of(edta, "0.109") + ", " + of(meta, "0.21", ""), "", nil, nil, ""},
		{"metabisulfite that adds up", of(meta, "2.45", ""), "", []string{"Eye Irrit. 2"}, nil, ""},
		{"metabisulfite that does not", of(meta, "1.5", ", additive = false"), "", []string{"Eye Dam. 1"}, nil, ""},
		{"nor below 1 %", of(meta, "0.99", ", additive = false"), "", nil, nil, ""},
		{"lye alone goes by its own limits", of(lye, "0.32"), "ph = \"12.9\"", nil, nil, ""},
		{"beside what does not burn", of(lye, "0.32") + ", " + of(urea, "0.2"), "ph = \"12.9\"", nil, nil, ""},
		{"beside what irritates, by its pH", of(lye, "0.32") + ", " + of(soda, "2"), "ph = \"12.9\"", []string{"Eye Dam. 1", "Skin Corr. 1"}, nil, ""},
		{"soda alone at pH 11.5", of(soda, "5"), "ph = \"11.5\"", []string{"Eye Dam. 1", "Skin Corr. 1"}, nil, ""},
		{"soda alone at pH 11.4", of(soda, "5"), "ph = \"11.4\"", nil, []string{"EUH210"}, ""},
		{"an acid at pH 2.0", `"x" = { share = "1 % w/w", classes = ["Eye Irrit. 2"] }`, "ph = \"2.0\"", []string{"Eye Dam. 1", "Skin Corr. 1"}, nil, ""},
		{"an acid that was tested", `"x" = { share = "1 % w/w", classes = ["Eye Irrit. 2"] }`, "ph = \"1.5\"\n[tested]\nx = { \"Skin Corr. 1\" = \"a test\" }", nil, []string{"EUH210"}, ""},
		{"a pH that may be too low", `"x" = { share = "1 % w/w", classes = ["Eye Irrit. 2"] }`, "ph = \"2.1 +- 0.1\"", []string{"Eye Dam. 1", "Skin Corr. 1"}, nil, "Skin Corr. 1"},
		{"iodide 0.99 %", of(iodide, "0.99"), "", nil, nil, ""},
		{"iodide 1 %", of(iodide, "1"), "", []string{"STOT RE 2"}, nil, ""},
		{"iodide 9.9 %", of(iodide, "9.9"), "", []string{"STOT RE 2"}, nil, ""},
		{"iodide 10 %", of(iodide, "10"), "", []string{"STOT RE 1"}, nil, ""},
		{"a range over a limit", of(meta, "1..5", ""), "", []string{"Eye Dam. 1"}, nil, "Eye Dam. 1"},
		{"peroxide 4.9 %", of(oxygen, "4.9"), "", nil, nil, ""},
		{"peroxide 5 %", of(oxygen, "5"), "", []string{"Eye Irrit. 2"}, nil, ""},
		{"peroxide 8 %", of(oxygen, "8"), "", []string{"Eye Dam. 1"}, nil, ""},
		{"peroxide 50 %", of(oxygen, "50"), "", []string{"Eye Dam. 1", "Skin Corr. 1B"}, nil, ""},
		{"thiourea 2.9 %", of(urea, "2.9"), "", []string{"Aquatic Chronic 3", "Carc. 2"}, nil, ""},
		{"thiourea 3 %", of(urea, "3"), "", []string{"Aquatic Chronic 3", "Carc. 2", "Repr. 2"}, nil, ""},
		{"isopropanol 10 %", of(spirit, "10"), "", []string{"Eye Irrit. 2"}, nil, ""},
		{"isopropanol 20 %", of(spirit, "20"), "", []string{"Eye Irrit. 2", "STOT SE 3"}, nil, ""},
		{"a little catechol", `"catechol" = { share = "0.1 % w/w", classes = ["Carc. 1B", "Muta. 2"] }`, "", []string{"Carc. 1B"}, nil, ""},
		{"less", `"catechol" = { share = "0.099 % w/w", classes = ["Carc. 1B", "Muta. 2"] }`, "", nil, nil, ""},
		{"the harder of two", `"a" = { share = "1 % w/w", classes = ["Carc. 1B"] }, "b" = { share = "2 % w/w", classes = ["Carc. 2"] }`, "", []string{"Carc. 1B"}, nil, ""},
		{"thiocyanate as strong as it is kept", `"thiocyanate" = { share = "18 % w/w", classes = ["Acute Tox. 4 (oral)", "Acute Tox. 4 (dermal)", "Acute Tox. 4 (inhalation)"] }`, "", nil, []string{"EUH210"}, ""},
		{"at the limit of what is swallowed", `"x" = { share = "25 % w/w", classes = ["Acute Tox. 4 (oral)"] }`, "", []string{"Acute Tox. 4"}, nil, ""},
		{"below it", `"x" = { share = "24.9 % w/w", classes = ["Acute Tox. 4 (oral)"] }`, "", nil, []string{"EUH210"}, ""},
		{"an eleventh untested makes the rest count", `"x" = { share = "23 % w/w", classes = ["Acute Tox. 4 (oral)"] }, "y" = { share = "11 % w/w" }`, "", []string{"Acute Tox. 4"}, nil, ""},
		{"a tenth does not", `"x" = { share = "23 % w/w", classes = ["Acute Tox. 4 (oral)"] }, "y" = { share = "10 % w/w" }`, "", nil, nil, ""},
		{"irritants of the airways add up", `"x" = { share = "12 % w/w", classes = ["STOT SE 3 (respiratory)"] }, "y" = { share = "8 % w/w", classes = ["STOT SE 3 (respiratory)"] }`, "", []string{"STOT SE 3"}, nil, ""},
		{"what counts from 1 % on", `"x" = { share = "19.5 % w/w", classes = ["STOT SE 3 (respiratory)"] }, "y" = { share = "0.9 % w/w", classes = ["STOT SE 3 (respiratory)"] }`, "", nil, nil, ""},
		{"drowsiness is another matter", `"x" = { share = "12 % w/w", classes = ["STOT SE 3 (respiratory)"] }, "y" = { share = "8 % w/w", classes = ["STOT SE 3 (narcotic)"] }`, "", nil, nil, ""},
		{"vapour by its own table", `"x" = { share = "10 % w/w", classes = ["Acute Tox. 3 (inhalation)"], ate = { vapour = "1.5 mg/L" } }`, "", []string{"Acute Tox. 4"}, nil, ""},
		{"a lower limit of its own", `"x" = { share = "0.5 % w/w", classes = ["Skin Sens. 1"], limits = { "Skin Sens. 1" = "0.2 % w/w" } }`, "", []string{"Skin Sens. 1"}, nil, ""},
		{"and named from a tenth of it", `"x" = { share = "0.02 % w/w", classes = ["Skin Sens. 1"], limits = { "Skin Sens. 1" = "0.2 % w/w" } }`, "", nil, []string{"EUH208(x)", "EUH210"}, ""},
		{"M-factor of the acute kind", `"x" = { share = "2.5 % w/w", classes = ["Aquatic Acute 1"], m_factor = { acute = 10 } }`, "", []string{"Aquatic Acute 1"}, nil, ""},
		{"oil", `"x" = { share = "10 % w/w", classes = ["Asp. Tox. 1"] }`, "", []string{"Asp. Tox. 1"}, nil, ""},
		{"what piles up", `"x" = { share = "0.1 % w/w", classes = ["PBT", "ED HH 2"] }`, "", []string{"PBT"}, nil, ""},
	} {
		got := ask(t, "contains = { "+c.contains+" } ;; "+c.more)
		require.Equal(t, append([]string{}, c.want...), words(got), c.name)
		if c.extra != nil {
			require.Equal(t, c.extra, codes(got), c.name)
		}
		for _, f := range got.Found {
			require.Equal(t, f.Class != c.unsure && !(c.unsure == "Skin Corr. 1" && f.Class == "Eye Dam. 1"), f.Sure, "%s: %s", c.name, f.Class)
		}
	}
}

// TestChildren: what may be damaged and what is suspected come together in one class.
func TestChildren(t *testing.T) {
	for _, c := range []struct{ a, b, want string }{
		{"Repr. 1B (F)", "Repr. 1B (D)", "Repr. 1B (FD)"}, {"Repr. 1B (D)", "Repr. 2 (f)", "Repr. 1B (Df)"}, {"Repr. 1B (FD)", "Repr. 2 (d)", "Repr. 1B (FD)"},
		{"Repr. 2 (f)", "Repr. 2 (d)", "Repr. 2 (fd)"}, {"Repr. 1B (F)", "Repr. 1A (D)", "Repr. 1A (FD)"}, {"Repr. 1B", "Repr. 2 (d)", "Repr. 1B"}, {"Repr. 2 (d)", "Repr. 2 (d)", "Repr. 2 (d)"},
	} {
		got := ask(t, fmt.Sprintf(`contains = { "x" = { share = "5 %% w/w", classes = ["%s"] }, "y" = { share = "5 %% w/w", classes = ["%s"] } }`, c.a, c.b))
		require.Len(t, got.Found, 1)
		require.Equal(t, c.want, got.Found[0].Class)
		by := 2
		if c.a == "Repr. 1B (FD)" || c.a == "Repr. 1B" { // the other adds nothing
			by = 1
		}
		require.Len(t, got.Found[0].By, by, c.want)
	}
}

// TestOrgans: harm to organs keeps the organs that it names. A limit stands for all of them,
// a harder class of one organ leaves a milder one of another, and those that name the same
// are one.
func TestOrgans(t *testing.T) {
	const a = `"a" = { share = "%s %% w/w", classes = ["STOT RE 1 (thyroid)"]%s }`
	for _, c := range []struct {
		name, contains string
		want           []string
	}{
		{"below the limit of the milder", fmt.Sprintf(a, "0.99", ""), nil},
		{"the milder keeps the organ", fmt.Sprintf(a, "1", ""), []string{"STOT RE 2 (thyroid)"}},
		{"and so does the harder", fmt.Sprintf(a, "10", ""), []string{"STOT RE 1 (thyroid)"}},
		{"a limit without organs is one of its own", fmt.Sprintf(a, "4", `, limits = { "STOT RE 1" = "4 % w/w" }`), []string{"STOT RE 1 (thyroid)"}},
		{"another organ is another harm", fmt.Sprintf(a, "10", "") + `, "b" = { share = "10 % w/w", classes = ["STOT RE 2 (nerves)"] }`, []string{"STOT RE 1 (thyroid)", "STOT RE 2 (nerves)"}},
		{"the same organ is one", fmt.Sprintf(a, "10", "") + `, "b" = { share = "10 % w/w", classes = ["STOT RE 2 (thyroid)"] }`, []string{"STOT RE 1 (thyroid)"}},
		{"organs that nobody names stand beside those", fmt.Sprintf(a, "10", "") + `, "b" = { share = "10 % w/w", classes = ["STOT RE 2"] }`, []string{"STOT RE 1 (thyroid)", "STOT RE 2"}},
	} {
		var got []string
		for _, f := range ask(t, "contains = { "+c.contains+" }").Found {
			got = append(got, f.Class)
		}
		slices.Sort(got)
		require.Equal(t, c.want, got, c.name)
	}
}

// TestNear: a class that a mixture stays under by less than a fifth is told, unless it has
// that class or a harder one.
func TestNear(t *testing.T) {
	for share, near := range map[string][]string{"0.239": nil, "0.24": {"Repr. 1B (FD)"}, "0.299": {"Repr. 1B (FD)"}, "0.3": nil} {
		var got []string
		for _, n := range ask(t, `contains = { "borax" = { share = "`+share+` % w/w", classes = ["Repr. 1B (FD)"] } }`).Near {
			got = append(got, n.Class)
		}
		require.Equal(t, near, got, share)
	}
	require.Empty(t, ask(t, `contains = { "a" = { share = "9 % w/w", classes = ["Eye Irrit. 2"] }, "b" = { share = "4 % w/w", classes = ["Eye Dam. 1"] } }`).Near)
}

// TestUnknownParts: what nobody has looked up makes a mixture unknown from a thousandth on.
func TestUnknownParts(t *testing.T) {
	require.Empty(t, ask(t, `contains = { "x" = { share = "0.09 % w/w" } }`).Unknown)
	require.Len(t, ask(t, `contains = { "x" = { share = "0.1 % w/w" } }`).Unknown, 1)
	require.Len(t, ask(t, `contains = { "x" = { share = "0.05..0.1 % w/w" } }`).Unknown, 1)
	require.Equal(t, []string{"x"}, ask(t, `contains = { "x" = { share = "1 % w/w", classes = ["Aquatic Chronic 1"] } }`).FactorAssumed)
}

// TestBlame: who may be to blame for an extreme pH. A lone acid goes by its own limits; beside
// another acid, classified or not, the pH decides; an alkali is not to blame for an acid bath.
func TestBlame(t *testing.T) {
	const acid = `"x" = { share = "1 % w/w", classes = ["Skin Corr. 1B"], limits = { "Skin Corr. 1B" = "25 % w/w", "Skin Irrit. 2" = "10 % w/w", "Eye Irrit. 2" = "10 % w/w" } }, "y" = { share = "1 % w/w", classes = [] }`
	for more, burns := range map[string]bool{
		"ph = \"1.5\"":                       false,
		"ph = \"1.5\"\n[acid]\ny = true":     true,
		"ph = \"1.5\"\n[alkali]\ny = true":   false,
		"ph = \"12\"\n[alkali]\ny = true":    true,
		"ph = \"12\"\n[acid]\ny = true":      false,
		"ph = \"7\"\n[acid]\ny = true":       false,
		"ph = \"1.5\"\n[acid]\nwater = true": false,
	} {
		got := ask(t, "contains = { "+acid+" } ;; "+more)
		require.Equal(t, burns, slices.Contains(words(got), "Skin Corr. 1"), more)
		for _, f := range got.Found {
			require.Equal(t, f.Class == "Skin Corr. 1" || f.Class == "Eye Dam. 1", f.PH, more)
		}
	}
	require.Equal(t, []string{"Eye Dam. 1", "Skin Corr. 1"}, words(ask(t, `contains = { "secret" = { share = "1 % w/w" } } ;; ph = "1.5"`)), "what nobody has looked up may be to blame")
}

// TestOneByOne: what counts alone is not added up, but for what shares a limit.
func TestOneByOne(t *testing.T) {
	two := `contains = { "a" = { share = "0.6 % w/w", classes = ["Carc. 2"] }, "b" = { share = "0.6 % w/w", classes = ["Carc. 2"] } }`
	require.Empty(t, words(ask(t, two)))
	require.Equal(t, []string{"Carc. 2"}, words(ask(t, two+" ;; together = { a = \"c\", b = \"c\" }")))
	require.Empty(t, words(ask(t, two+" ;; together = { a = \"c\", b = \"d\" }")))
}

// TestGas: the statement of a gas goes by all that gives it off together; where nobody can
// tell how much, by the content.
func TestGas(t *testing.T) {
	for _, c := range []struct {
		a, b, gas  string
		want, sure bool
	}{
		{"0.3", "0.4", "a = \"200 mL/g\", b = \"100 mL/g\"", true, true},
		{"0.3", "0.39", "a = \"200 mL/g\", b = \"100 mL/g\"", false, false},
		{"0.2..0.3", "0.4", "a = \"200 mL/g\", b = \"100 mL/g\"", true, false},
		{"0.05", "0.1", "a = \"200 mL/g\"", true, true},
		{"0.05", "0.09", "a = \"200 mL/g\"", false, false},
		{"0.05", "0.05..0.1", "a = \"200 mL/g\"", true, false},
	} {
		got := ask(t, `contains = { "a" = { share = "`+c.a+` % w/w", classes = [] }, "b" = { share = "`+c.b+` % w/w", classes = [] }, "z" = { share = "50 % w/w", classes = [] } } ;; extra = { a = "EUH031", b = "EUH031" } ;; gas = { `+c.gas+` }`)
		require.Equal(t, c.want, slices.Contains(codes(got), "EUH031"), c)
		for _, f := range got.Extra {
			require.Equal(t, c.sure, f.Sure, c)
			require.Len(t, f.By, 2, c)
		}
	}
}

// TestForms: an estimate of one form of what is breathed in says nothing of another.
func TestForms(t *testing.T) {
	for ate, want := range map[string][]string{
		``:                               {"Acute Tox. 3"},
		`, ate = { vapour = "25 mg/L" }`: {},
		`, ate = { gas = "25000 ppm" }`:  {},
		`, ate = { gas = "2000 ppm" }`:   {"Acute Tox. 3"},
		`, ate = { dust = "2 mg/L" }`:    {"Acute Tox. 4"},
	} {
		require.Equal(t, want, words(ask(t, `contains = { "x" = { share = "90 % w/w", classes = ["Acute Tox. 3 (inhalation)"]`+ate+` } }`)), ate)
	}
}
