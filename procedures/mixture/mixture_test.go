package mixture

import (
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
			Together: m.Together[n], Tested: m.Tested[n]}
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
	var m mixed
	meta, err := toml.Decode(strings.ReplaceAll(inputs, " ;; ", "\n"), &m)
	require.NoError(t, err, inputs)
	for _, k := range meta.Undecoded() {
		require.Equal(t, "contains", k[0], inputs)
	}
	s := shipped(t)
	if m.Scheme == "UN" {
		s = read(t, five)
	}
	return Classify(s, m.parts(), m.ph())
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
