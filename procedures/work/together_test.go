package work_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/content"
	"wetside/procedures/hazard"
	"wetside/procedures/unit"
	"wetside/procedures/work"
	"wetside/testdata/binders"
)

// TestDrumHolds: what a month's baths are together goes by the volume of each, and what nobody knows of
// one of them is known of none.
func TestDrumHolds(t *testing.T) {
	type want struct {
		classes, has, hints, open, first, untold []string
		acid, unknown                            bool
	}
	irritates := []string{"Skin Irrit. 2", "Eye Irrit. 2"}
	alone := []string{"burner.supplied HP 8", "burner.working HP 8"}
	gas := []string{"HP 12 burning salt, likely"}
	more := []string{"250 mL/roll", "750 mL/roll", "750 mL/roll", "250 mL/roll"}
	for name, x := range map[string]struct {
		change []string
		want   want
	}{
		"by volume": {want: want{classes: irritates, hints: gas, first: alone}},
		// 3 L at 6 % and 1 L at 12 %: 4.5 % and 3 %, and 5 % are not reached.
		"more of what burns": {change: more, want: want{classes: []string{"Skin Irrit. 2", "Eye Dam. 1"}, hints: gas, first: alone}},
		// 3 L at 7 %: 5.25 %.
		"enough of what burns": {change: append([]string{"6 % w/w", "7 % w/w"}, more...),
			want: want{classes: []string{"Skin Corr. 1B", "Eye Dam. 1"}, has: []string{"HP 8"}, hints: gas}},
		"a part of which nobody has said the classes": {change: []string{", classes = [\"Eye Irrit. 2\"]", ""},
			want: want{classes: irritates, unknown: true, open: []string{"mild salt"}, hints: gas, first: alone, untold: []string{"mild.supplied", "mild.working"}}},
		"a bath of which nobody has said what is in it": {change: []string{"contains = { \"mild salt\" = { share = \"12 % w/w\", classes = [\"Eye Irrit. 2\"] }, water = \"rest\" }", ""},
			want: want{classes: irritates, unknown: true, hints: gas, first: alone, untold: []string{"mild.supplied", "mild.working"}}},
		"a bath that burns by its pH, and nobody can tell the pH of all": {change: []string{"ph = \"6.0\"", "ph = \"12\""},
			want: want{classes: irritates, hints: gas, first: alone, acid: true, unknown: true}},
		"an alkali of which nobody has written the pH": {change: []string{"ph = \"6.0\"", "", "\"burning salt\" = { share = \"6 % w/w\", classes = [\"Skin Corr. 1B\"], extra = [\"EUH032\"] }", "sodium-hydroxide = \"1 % w/w\""},
			want: want{first: []string{"burner.supplied HP 4", "burner.working HP 4"}, acid: true, unknown: true}}, // 0.25 % of it, and 1 % by itself
		// 1 L at 6 % and 3 L at 12 % of one name: 10.5 %, with the classes of both sheets.
		"one name on two sheets": {change: []string{"\"mild salt\"", "\"burning salt\""},
			want: want{classes: []string{"Skin Corr. 1B", "Eye Dam. 1"}, has: []string{"HP 8"}, hints: gas}},
		"one name, and one of the sheets says no class": {change: []string{"\"mild salt\"", "\"burning salt\"", ", classes = [\"Eye Irrit. 2\"]", ""},
			want: want{unknown: true, open: []string{"burning salt"}, hints: gas, first: alone, untold: []string{"mild.supplied", "mild.working"}}},
		// A quarter of 0.4 % is 0.1 %, from which what feeds a fire is named.
		"a little that feeds a fire": {change: []string{"6 % w/w\", classes = [\"Skin Corr. 1B\"]", "0.4 % w/w\", classes = [\"Ox. Sol. 2\"]"},
			want: want{hints: []string{"HP 2 burning salt", "HP 12 burning salt, likely"}}},
		"too little of it": {change: []string{"6 % w/w\", classes = [\"Skin Corr. 1B\"]", "0.39 % w/w\", classes = [\"Ox. Sol. 2\"]"}},
		"one name, and the other sheet says no class": {change: []string{"\"mild salt\"", "\"burning salt\"", ", classes = [\"Skin Corr. 1B\"]", ""},
			want: want{unknown: true, open: []string{"burning salt"}, hints: gas, untold: []string{"burner.supplied", "burner.working"}}},
		"at most so much of it": {change: append([]string{"6 % w/w", "5..7 % w/w"}, more...),
			want: want{classes: []string{"Skin Corr. 1B", "Eye Dam. 1"}, has: []string{"HP 8 at the most"}, hints: gas}},
	} {
		d := drum(archived(t, "together.txtar", x.change...), "spent")
		require.NotNil(t, d.Month, name)
		h := d.Month.Holds
		require.NotNil(t, h, name)
		var got want
		for _, f := range h.Dangers.Classes {
			got.classes = append(got.classes, f.Class.Word)
		}
		for _, p := range h.Properties.Has {
			for _, b := range p.By {
				require.False(t, b.Low != nil && strings.Contains(b.Content.Shown, "–"), "%s: the bounds stand twice", name)
			}
			word := p.Code
			if p.Unsure {
				word += " at the most"
			}
			got.has = append(got.has, word)
		}
		for _, p := range h.Properties.Hints {
			for _, of := range p.Because {
				word := p.Code + " " + of
				if p.Likely {
					word += ", likely"
				}
				got.hints = append(got.hints, word)
			}
		}
		for _, a := range h.Alone {
			for _, b := range a.Baths {
				got.first = append(got.first, b.Ref()+" "+strings.Join(a.Codes, ", "))
			}
		}
		for _, b := range h.Untold {
			got.untold = append(got.untold, b.Ref())
		}
		got.open, got.acid, got.unknown = h.Properties.Open, h.Properties.Acid, h.Dangers.Status == hazard.Unknown
		require.Equal(t, x.want, got, name)
	}
}

// TestDrumHoldsNothing: without a month's work nobody says what a drum holds.
func TestDrumHoldsNothing(t *testing.T) {
	d := drum(archived(t, "together.txtar", "[use]\nfilms = \"4 film.roll\"\n", ""), "spent")
	require.Nil(t, d.Month)
}

// TestDrumOfDevelopers: a bath that burns by its pH does not make the month unknown where the pH of all is
// known. By hand, in 23.2 L: hydroquinone 2.59 g/L, which at 1.03 g/ml is 0.252 %.
func TestDrumOfDevelopers(t *testing.T) {
	got := binders.Loaded(t, os.DirFS("../../content/demo"), content.FS)
	h := drum(work.Of(got.Lab, unit.Date{Year: 2026, Month: 3, Day: 14}), "developers").Month.Holds
	require.Equal(t, hazard.Computed, h.Dangers.Status)
	require.Equal(t, "10.6", h.Acidity.PH.Shown)
	require.Equal(t, "0.252", h.Properties.Has[0].By[0].Content.Shown)
}
