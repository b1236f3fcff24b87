package work_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/content"
	"wetside/procedures/unit"
	"wetside/procedures/work"
	"wetside/testdata/binders"
)

// twoBottles is a kit of which the contents and the sheets stand with each bottle.
const twoBottles = `
-- lab.toml --
[lab]
name = "Test"
-- products/kit.toml --
name = "kit"
role = "developer"
[part.a]
state = "liquid"
pack = { holds = "500 mL" }
contains = { water = "rest", sodium-metabisulfite = "1..5 % w/w", pyrocatechol = "4..6 % w/w" }
[part.a.hazards]
classes = ["Eye Dam. 1"]
[part.b]
state = "liquid"
pack = { holds = "500 mL" }
contains = { water = "rest", odd = "8..12 % w/w" }
[part.b.hazards]
classes = ["Aquatic Chronic 2"]
[makes]
stock = "5 L"
[[step]]
add = "a"
amount = "500 mL"
[[step]]
add = "b"
amount = "500 mL"
`

func worked(t *testing.T, archive string) *work.Work {
	t.Helper()
	return work.Of(binders.Loaded(t, binders.Of(archive), content.FS).Lab, unit.Date{Year: 2026, Month: 3, Day: 14})
}

// TestAKitIsNoMilderThanItsBottles: what each bottle of a kit does to people, by its sheet and by what is
// in it, holds for the kit, also where nobody knows enough to work out the mixed bath; and what its parts
// react like is known.
func TestAKitIsNoMilderThanItsBottles(t *testing.T) {
	for _, c := range []struct {
		name, lab      string
		classes        []string // among those of the kit
		never          []string // not among them
		unknown, mixes bool     // nobody has looked; nobody knows what it reacts with
	}{
		{"each bottle has a sheet", twoBottles, []string{"Eye Dam. 1", "Aquatic Chronic 2", "Carc. 1B"}, nil, false, false},
		{"one bottle has none", strings.Replace(twoBottles, "[part.b.hazards]\nclasses = [\"Aquatic Chronic 2\"]\n", "", 1),
			[]string{"Eye Dam. 1", "Carc. 1B"}, []string{"Aquatic Chronic 2"}, true, false},
		{"nobody has said what one bottle is", strings.Replace(twoBottles, "contains = { water = \"rest\", odd = \"8..12 % w/w\" }\n", "", 1),
			[]string{"Eye Dam. 1", "Aquatic Chronic 2", "Carc. 1B"}, nil, false, true},
		{"the sheet of the whole says less", strings.Replace(twoBottles, "[makes]", "[hazards]\nclasses = [\"Aquatic Chronic 3\"]\n[makes]", 1),
			[]string{"Aquatic Chronic 3", "Eye Dam. 1", "Aquatic Chronic 2", "Carc. 1B"}, nil, false, false},
	} {
		w := worked(t, c.lab)
		for _, b := range w.Baths {
			var have []string
			for _, f := range b.Dangers.Classes {
				have = append(have, f.Class.Word)
			}
			for _, want := range c.classes {
				require.Contains(t, have, want, "%s: %s", c.name, b.Ref())
			}
			for _, no := range c.never {
				require.NotContains(t, have, no, "%s: %s", c.name, b.Ref())
			}
			require.Equal(t, c.unknown, b.Dangers.Status == work.Unknown, "%s: %s", c.name, b.Ref())
			require.Equal(t, c.mixes, slices.Contains(b.Dangers.Unsaid, "kit"), "%s: %s", c.name, b.Ref())
			require.True(t, b.Dangers.Kinds.Any("sulfite"), "%s: %s", c.name, b.Ref())
		}
	}
}

// TestLessThanALimitIsNotTheLimit: a sheet that says "less than" the content from which a class counts has
// said that it does not count; one that says "up to" has not.
func TestLessThanALimitIsNotTheLimit(t *testing.T) {
	for share, want := range map[string]bool{"<0.3 % w/w": false, "0..0.3 % w/w": true, "<0.31 % w/w": true} {
		w := worked(t, strings.ReplaceAll(`
-- lab.toml --
[lab]
name = "Test"
-- products/fix.toml --
name = "fix"
state = "liquid"
density = "1.3 g/mL"
contains = { water = "rest", boric-acid = "SHARE" }
`, "SHARE", share))
		require.Equal(t, want, slices.ContainsFunc(w.Baths[0].Dangers.Classes, func(f work.Found) bool {
			return strings.HasPrefix(f.Class.Word, "Repr. 1B")
		}), share)
	}
}

// TestAShareOfASubstanceIsNotOneOfItsSolution: a sheet gives the share of the substance itself, and the
// card names that; only where the file names a form is it that of the form.
func TestAShareOfASubstanceIsNotOneOfItsSolution(t *testing.T) {
	for name, want := range map[string]string{"ammonium-thiosulfate": "ammonium thiosulfate",
		`"ammonium-thiosulfate.solution-60"`: "ammonium thiosulfate, solution of 60 % w/w"} {
		w := worked(t, "\n-- lab.toml --\n[lab]\nname = \"Test\"\n-- products/fix.toml --\nname = \"fix\"\nstate = \"liquid\"\ndensity = \"1.3 g/mL\"\n"+
			"contains = { water = \"rest\", "+name+" = \"45..55 % w/w\" }\n")
		require.Equal(t, want, w.Products[0].Parts[0].Name)
	}
}

// TestTheSheetIsNeverUndercut: what a supplier's sheet asks to wear is worn while the thing is handled as
// it comes, whatever is worked out of its classes; a bath that is diluted from it goes by its own classes.
func TestTheSheetIsNeverUndercut(t *testing.T) {
	const fix = `
-- lab.toml --
[lab]
name = "Test"
-- products/fix.toml --
name = "fix"
state = "liquid"
density = "1.3 g/mL"
contains = { water = "rest", glycerol = { share = "1 % w/w", classes = [] } }
[hazards]
classes = []
WEAR
[strength.working]
from = "supplied"
dilute = "1+9"
`
	worn := func(archive, ref string, job work.Job) string {
		var out []string
		for _, i := range worked(t, archive).Bath(ref).Dangers.For(job).Wear {
			out = append(out, i.Word)
		}
		return strings.Join(out, ", ")
	}
	plain, asked := strings.Replace(fix, "WEAR\n", "", 1), strings.Replace(fix, "WEAR", `wear = ["gloves", "apron"]`, 1)
	for _, job := range []work.Job{work.Dilute, work.Spilled} {
		require.NotContains(t, worn(plain, "fix.supplied", job), "apron", job)
		require.Contains(t, worn(asked, "fix.supplied", job), "gloves, apron", job)
	}
	require.NotContains(t, worn(plain, "fix.working", work.Dilute), "apron")
	require.Contains(t, worn(asked, "fix.working", work.Dilute), "apron", "who dilutes it handles it as it comes")
	require.NotContains(t, worn(asked, "fix.working", work.AtWork), "apron")
}

// TestMixedForOneTank: a bath that is mixed of several parts and used once is poured from no bottle; one
// that is diluted, kept, or made of powders is.
func TestMixedForOneTank(t *testing.T) {
	const bath = `
-- lab.toml --
[lab]
name = "Test"
-- products/a.toml --
name = "a"
state = "liquid"
-- products/b.toml --
name = "b"
state = "liquid"
-- solutions/both.toml --
name = "both"
role = "developer"
makes = "working"
step = [ { add = "water", parts = 48 }, { add = "a", parts = 1 }, { add = "b", parts = 1 } ]
[strength.working]
use = "one-shot"
-- processes/film.toml --
name = "film"
base = "film"
[[step]]
id = "develop"
bath = "both.working"
time = "5:00"
`
	mixed := func(change ...string) bool {
		return worked(t, strings.NewReplacer(change...).Replace(bath)).Processes[0].Steps[0].MixedForIt
	}
	require.True(t, mixed())
	require.False(t, mixed(`use = "one-shot"`, `use = "re-use"`), "it stands in a bottle")
	require.False(t, mixed(`bath = "both.working"`, `bath = "a.supplied"`), "it is poured as it comes")
	require.False(t, mixed(`step = [ { add = "water", parts = 48 }, { add = "a", parts = 1 }, { add = "b", parts = 1 } ]`,
		"per = \"1 L\"\nstep = [ { add = \"a\", amount = \"100 mL\" } ]"), "it is made by amounts")
}

// TestPartsOfATank: a bath that is mixed for one tank says how much of each part that tank takes, and why
// where that cannot be measured here.
func TestPartsOfATank(t *testing.T) {
	const bath = `
-- lab.toml --
[lab]
name = "Test"
[cylinder.large]
holds = "100 mL"
CYLINDER
[tank.one]
fill = "500 mL"
takes = { 120 = 1 }
-- materials/film.toml --
name = "film"
base = "film"
formats = ["120"]
-- products/a.toml --
name = "a"
state = "liquid"
-- products/b.toml --
name = "b"
state = "liquid"
-- solutions/both.toml --
name = "both"
role = "developer"
makes = "working"
step = [ { add = "water", parts = 48 }, { add = "a", parts = 1 }, { add = "b", parts = 1 } ]
[strength.working]
use = "one-shot"
-- processes/film.toml --
name = "film"
base = "film"
[[step]]
id = "develop"
bath = "both.working"
time = "5:00"
`
	of := func(cylinder string) []work.FillPart {
		p := worked(t, strings.Replace(bath, "CYLINDER", cylinder, 1)).Processes[0]
		require.Len(t, p.Runs, 1)
		return p.Runs[0].Steps[0].Parts
	}
	parts := of("[syringe.small]\nholds = \"10 mL\"\ngraduation = \"0.1 mL\"\ntolerance = \"0.1 mL\"")
	require.Len(t, parts, 3)
	require.True(t, parts[0].Adds.Water)
	for _, x := range parts[1:] {
		require.Equal(t, "10", x.Take.Amount.Shown, "%s: 500 ml by 50 parts", x.Adds.Name())
		require.Empty(t, x.Take.Refused)
	}
	for _, x := range of("")[1:] {
		require.Contains(t, x.Take.Refused, "too little to measure here")
		require.Equal(t, "10.00", x.Take.Wanted.Shown)
	}
}
