package lab_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build/load"
	"wetside/content"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// TestMeant: who writes the name of the trade, or the other spelling, is asked whether
// the chemical was meant, by what is to be written.
func TestMeant(t *testing.T) {
	loaded, err := load.Folder(fstest.MapFS{"lab.toml": {Data: []byte("[lab]\nname = \"Test\"\n")}}, content.FS)
	require.NoError(t, err)
	for word, want := range map[string]string{
		"hypo":                     `did you mean "sodium-thiosulfate.pentahydrate", which is sodium thiosulfate, pentahydrate? otherwise write`,
		"Hypo":                     `did you mean "sodium-thiosulfate.pentahydrate", which`,
		"metol":                    `did you mean "methylaminophenol-sulfate"? otherwise write`,
		"washing-soda":             `did you mean "sodium-carbonate.decahydrate", which is sodium carbonate, decahydrate?`,
		"washing soda":             `did you mean "sodium-carbonate.decahydrate", which`,
		"soda ash":                 `did you mean "sodium-carbonate.anhydrous", which`,
		"sodium sulphite":          `did you mean "sodium-sulfite"?`,
		"sodium-sulphite":          `did you mean "sodium-sulfite"?`,
		"sulphite":                 `did you mean "sodium-sulfite"?`,
		"sodium thiosulphate":      `did you mean "sodium-thiosulfate.anhydrous" or "sodium-thiosulfate.pentahydrate"?`,
		"sodium carbonate":         `did you mean "sodium-carbonate.anhydrous" or "sodium-carbonate.monohydrate"?`,
		"Citric acid":              `did you mean "citric-acid.anhydrous" or "citric-acid.monohydrate"?`,
		"citric acid monohydrate":  `did you mean "citric-acid.monohydrate", which is citric acid, monohydrate?`,
		"tetrasodium EDTA":         `did you mean "edta-tetrasodium"?`,
		"ferric-ammonium-citrate":  `did you mean "ammonium-iron-citrate"?`,
		"ammonium iron citrate":    `did you mean "ammonium-iron-citrate"?`,
		"catechol":                 `did you mean "pyrocatechol"? otherwise write`,
		"blue vitriol":             `did you mean "copper-sulfate.pentahydrate", which is`,
		"ferrous sulphate":         `did you mean "iron-ii-sulfate"?`,
		"glacial acetic acid":      `did you mean "acetic-acid.glacial", which is acetic acid, glacial?`,
		"p-aminophenol salt":       "write its definition",
		"citric-acd":               `did you mean "citric-acid"? otherwise write`,
		"potassium carbonate":      "write its definition",
		"sodium sulfite crystals!": "write its definition",
	} {
		_, problems := loaded.Lab.Resolve(word, figure.Where{File: "solutions/x.toml"})
		require.Len(t, problems, 1, word)
		require.Equal(t, "reference", problems[0].Code)
		require.Greater(t, len(problems[0].Hint), len(want))
		require.Equal(t, want, problems[0].Hint[:len(want)], word)
	}
	for name, ref := range lab.CommonNames {
		require.Equal(t, lab.NameKey(name), name, "a name is looked up as it is compared")
		require.Nil(t, loaded.Lab.Chemical(name))
		hint := loaded.Lab.Meant(name, "-")
		require.Contains(t, hint, "did you mean", "%s: %s is not in the library", name, ref)
		require.Contains(t, hint, ref)
	}
	_, problems := loaded.Lab.Bath("sodium-sulfite", figure.Where{})
	require.Equal(t, `"sodium-sulfite" is a chemical, and a bath is a solution or a product`, problems[0].What)
}

// TestCounted: who leaves out what a limit counts is shown something that this lab has.
func TestCounted(t *testing.T) {
	const fixer = "name = \"fixer\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"1 g\"\n[strength.stock]\nlimits = [{ by = \"count\", most = \"9 /L\" }]\n"
	for material, hint := range map[string]string{
		"name = \"paper\"\nbase = \"fibre\"\nformats = [\"18x24\"]\n": `write of = "paper.18x24"`,
		"name = \"paper\"\nbase = \"fibre\"\n":                        `write of = "fibre-paper.24x30"`,
	} {
		loaded, err := load.Folder(fstest.MapFS{"lab.toml": {Data: []byte("[lab]\nname = \"Test\"\n")},
			"solutions/fixer.toml": {Data: []byte(fixer)}, "materials/paper.toml": {Data: []byte(material)}}, content.FS)
		require.NoError(t, err)
		var hints []string
		for _, p := range lab.Check(loaded.Lab, unit.Date{Year: 2026, Month: 3, Day: 14}) {
			if p.Code == "missing" {
				hints = append(hints, p.Hint)
			}
		}
		require.Contains(t, hints, hint)
	}
}
