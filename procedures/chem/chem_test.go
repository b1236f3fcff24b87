package chem

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParse(t *testing.T) {
	tests := []struct {
		in, text string
		elements []Count
		salt     string
		waters   int
	}{
		{"Na2S2O3·5H2O", "Na2S2O3·5H2O", []Count{{"H", 10}, {"Na", 2}, {"O", 8}, {"S", 2}}, "Na2S2O3", 5},
		{"Na2CO3.10H2O", "Na2CO3·10H2O", []Count{{"C", 1}, {"H", 20}, {"Na", 2}, {"O", 13}}, "Na2CO3", 10},
		{" Na2CO3 * H2O ", "Na2CO3·H2O", []Count{{"C", 1}, {"H", 2}, {"Na", 2}, {"O", 4}}, "Na2CO3", 1},
		{"Na₂SO₃ • 7 H₂O", "Na2SO3·7H2O", []Count{{"H", 14}, {"Na", 2}, {"O", 10}, {"S", 1}}, "Na2SO3", 7},
		{"(NH4)2S2O3", "(NH4)2S2O3", []Count{{"H", 8}, {"N", 2}, {"O", 3}, {"S", 2}}, "(NH4)2S2O3", 0},
		{"KAl(SO4)2·12H2O", "KAl(SO4)2·12H2O", []Count{{"Al", 1}, {"H", 24}, {"K", 1}, {"O", 20}, {"S", 2}}, "KAl(SO4)2", 12},
		{"K3Fe(CN)6", "K3Fe(CN)6", []Count{{"C", 6}, {"Fe", 1}, {"K", 3}, {"N", 6}}, "K3Fe(CN)6", 0},
		{"(NH4)3[Fe(C2O4)3]·3H2O", "(NH4)3[Fe(C2O4)3]·3H2O", []Count{{"C", 6}, {"H", 18}, {"Fe", 1}, {"N", 3}, {"O", 15}}, "(NH4)3[Fe(C2O4)3]", 3},
		{"(C7H9NO)2.H2SO4", "(C7H9NO)2·H2SO4", []Count{{"C", 14}, {"H", 20}, {"N", 2}, {"O", 6}, {"S", 1}}, "(C7H9NO)2·H2SO4", 0},
		{"C6H8N2.2HCl", "C6H8N2·2HCl", []Count{{"C", 6}, {"H", 10}, {"Cl", 2}, {"N", 2}}, "C6H8N2·2HCl", 0},
		{"C6H8N2.2H2O.HCl", "C6H8N2·HCl·2H2O", []Count{{"C", 6}, {"H", 13}, {"Cl", 1}, {"N", 2}, {"O", 2}}, "C6H8N2·HCl", 2},
		{"CuSO4.H2O.4H2O", "CuSO4·5H2O", []Count{{"Cu", 1}, {"H", 10}, {"O", 9}, {"S", 1}}, "CuSO4", 5},
		{"CuSO4.2(H2O)2", "CuSO4·4H2O", []Count{{"Cu", 1}, {"H", 8}, {"O", 8}, {"S", 1}}, "CuSO4", 4},
		{"NaCl.2H2O2", "NaCl·2H2O2", []Count{{"Cl", 1}, {"H", 4}, {"Na", 1}, {"O", 4}}, "NaCl·2H2O2", 0},
		{"CH3COOH", "CH3COOH", []Count{{"C", 2}, {"H", 4}, {"O", 2}}, "CH3COOH", 0},
		{"[Cr(H2O)6]Cl3", "[Cr(H2O)6]Cl3", []Count{{"Cl", 3}, {"Cr", 1}, {"H", 12}, {"O", 6}}, "[Cr(H2O)6]Cl3", 0},
		{"K[I(I)2]1", "K[I(I)2]", []Count{{"I", 3}, {"K", 1}}, "K[I(I)2]", 0},
		{"H2O", "H2O", []Count{{"H", 2}, {"O", 1}}, "H2O", 0},
		{"C10000", "C10000", []Count{{"C", 10000}}, "C10000", 0},
	}
	for _, tt := range tests {
		t.Run(tt.in, func(t *testing.T) {
			f, err := Parse(tt.in)
			require.NoError(t, err)
			assert.Equal(t, tt.text, f.String())
			assert.Equal(t, tt.elements, f.Elements())
			salt, waters := f.Anhydrous()
			assert.Equal(t, tt.salt, salt.String())
			assert.Equal(t, tt.waters, waters)
			_, none := salt.Anhydrous()
			assert.Zero(t, none)
		})
	}
}

func TestElementsBelongToTheCaller(t *testing.T) {
	for _, s := range []string{"NaCl", "Na2SO3·7H2O"} {
		f := parse(t, s)
		before := f.MolarMass()
		for i, e := 0, f.Elements(); i < len(e); i++ {
			e[i].N = 99
		}
		assert.Equal(t, before, f.MolarMass(), s)
	}
}

func TestParseErrors(t *testing.T) {
	const spaced = `close the gap, or write a dot: "Na2CO3·10H2O"`
	tests := []struct {
		in         string
		offset     int
		what, hint string
	}{
		{"", 0, "no formula is written", `write one, for example "Na2SO3"`},
		{"  ", 2, "no formula is written", `write one, for example "Na2SO3"`},
		{"NA2SO3", 0, `"NA" is not an element`, "did you mean Na?"},
		{"KBR", 1, `"BR" is not an element`, "did you mean Br?"},
		{"NaCL", 2, `"CL" is not an element`, "did you mean Cl?"},
		{"AGNO3", 0, `"AG" is not an element`, "did you mean Ag?"},
		{"Na2SO3·7H2O·MGO", 12, `"MG" is not an element`, "did you mean Mg?"},
		{"H2A", 2, `"A" is not an element`, "check the letters and capitals against the pack"},
		{"Naoh", 0, `"Naoh" is not an element`, "write symbols, not names"},
		{"KNa2So3", 4, `"So" is not an element`, "did you mean SO?"},
		{"NaoH", 0, `"Nao" is not an element`, "did you mean NaO?"},
		{"AgNo3", 2, "the atomic weight of No is not in the table", "did you mean NO?"},
		{"LiOH", 0, "the atomic weight of Li is not in the table", "a molar mass can be worked out only from the 33 elements in the table"},
		{"Hypo", 0, `"Hypo" is not an element`, "write symbols, not names"},
		{"na2SO3", 0, "an element begins with a capital letter", "did you mean Na?"},
		{"Na2so3", 3, "an element begins with a capital letter", "did you mean S?"},
		{"Na2qo3", 3, "an element begins with a capital letter", "the pack shows which"},
		{"(NH4)2S2O3)", 10, ") closes nothing", "take it out, or open the bracket before it"},
		{"(NH42S2O3", 0, "( is never closed", "write ) where its group ends"},
		{"K4[Fe(CN)6·3H2O", 2, "[ is never closed", "write ] where its group ends"},
		{"K3[Fe(CN]6)", 8, "] closes a (", "write )"},
		{"K3[]", 2, "nothing stands in the brackets", "take them out"},
		{"Na0Cl", 2, "a count of zero", "leave out what is not there"},
		{"Na2CO3·0H2O", 7, "a count of zero", "leave out what is not there"},
		{"Na02SO3", 2, "a count with a zero in front", "write 2"},
		{"C10001", 1, "a count above 10000", "check it against the pack"},
		{"C99999999999999999999", 1, "a count above 10000", "check it against the pack"},
		{"(C6H10O5)1001", 12, "H adds up to more than 10000", "check the counts against the pack"},
		{"C6000C6000", 9, "C adds up to more than 10000", "check the counts against the pack"},
		{"Na·5001H2O", 9, "H adds up to more than 10000", "check the counts against the pack"},
		{"2NaCl", 0, "a number stands before the first part", `write one unit of the salt, for example "Na2CO3·10H2O"`},
		{"CaSO4·0.5H2O", 6, "a count of zero", "leave out what is not there"},
		{"CaSO4·1.5H2O", 7, "nothing follows the number", `waters are counted whole: write for example "·5H2O"`},
		{"NaCl·5", 6, "nothing follows the number", `waters are counted whole: write for example "·5H2O"`},
		{"NaCl·", 5, "nothing stands where a part should", `write what belongs there, for example "·5H2O", or take the dot out`},
		{"·5H2O", 0, "nothing stands where a part should", `write what belongs there, for example "·5H2O", or take the dot out`},
		{"Na2S·xH2O", 5, "x is not a number of waters", "write the number that the pack says; without one the composition is not known"},
		{"Na2CO3 10H2O", 6, "a space inside the formula", spaced},
		{"NaCl +", 4, "a space inside the formula", spaced},
		{"K( Cl)", 2, "a space inside the formula", spaced},
		{"Na(2Cl)", 3, "a number with nothing before it", "a count follows its element or bracket"},
		{"SO4-", 3, "a charge", "write the whole salt, which has none"},
		{"Fe(III)Cl3", 2, "(III) is an oxidation number", "leave it out: a formula needs only the atoms"},
		{"Sn(IV)Cl4", 2, "(IV) is an oxidation number", "leave it out: a formula needs only the atoms"},
		{"Cu[II]Cl2", 2, "[II] is an oxidation number", "leave it out: a formula needs only the atoms"},
		{"Fe(II)2", 2, "(II) is an oxidation number", "leave it out: a formula needs only the atoms"},
		{"B(I1)", 1, "(I1) is an oxidation number", "leave it out: a formula needs only the atoms"},
		{"B(I)1", 1, "(I)1 is an oxidation number", "leave it out: a formula needs only the atoms"},
		{"B(IX", 3, `"X" is not an element`, "check the letters and capitals against the pack"},
		{"Cu(I)Cl", 2, "(I) is an oxidation number", "leave it out: a formula needs only the atoms"},
		{"Na2S2O3·5H2O!", 12, `'!' does not belong in a formula`, "write elements, counts, brackets and a dot before the water"},
		{"\xff", 0, `'�' does not belong in a formula`, "write elements, counts, brackets and a dot before the water"},
		{strings.Repeat("C", 201), 200, "more than 200 characters", "write the formula alone, without the name"},
	}
	for _, tt := range tests {
		t.Run(tt.in, func(t *testing.T) {
			f, err := Parse(tt.in)
			require.Error(t, err)
			assert.Equal(t, &Error{tt.offset, tt.what, tt.hint}, err)
			assert.Equal(t, Formula{}, f)
		})
	}
	_, err := Parse("NA2SO3")
	assert.EqualError(t, err, `at character 1: "NA" is not an element; did you mean Na?`)
	_, err = Parse(strings.Repeat("C", 200))
	assert.NoError(t, err)
}

func TestHydrateRatio(t *testing.T) {
	same := []struct {
		from, to string
		want     float64
	}{
		{"Na2CO3·H2O", "Na2CO3.1H2O", 1},
		{"NaC2H3O2", "CH3COONa", 1},
		{"C6H8N2·2HCl·H2O", "C6H8N2·2HCl", 181.060 / 199.075},
	}
	for _, tt := range same {
		got, err := HydrateRatio(parse(t, tt.from), parse(t, tt.to))
		require.NoError(t, err, tt.from)
		assert.InDelta(t, tt.want, got, 0.000005, tt.from)
	}
	_, err := HydrateRatio(parse(t, "Na2SO3·7H2O"), parse(t, "Na2SO4"))
	assert.EqualError(t, err, "Na2SO3·7H2O and Na2SO4 are not forms of one salt: without water they are Na2SO3 and Na2SO4")
	_, err = HydrateRatio(parse(t, "NaHSO3"), parse(t, "Na2S2O5"))
	assert.Error(t, err, "another salt, though water would make the one from the other")
	for _, pair := range [][2]Formula{{{}, parse(t, "NaCl")}, {parse(t, "NaCl"), {}}, {}} {
		_, err = HydrateRatio(pair[0], pair[1])
		assert.EqualError(t, err, "an empty formula has no salt to compare")
	}
}

func TestNothingWritten(t *testing.T) {
	var f Formula
	assert.Empty(t, f.String())
	assert.Empty(t, f.Elements())
	assert.Zero(t, f.MolarMass())
	assert.Zero(t, MassPercentWater(f))
	assert.Zero(t, MassPercentWater(parse(t, "H2O")))
	assert.Zero(t, MassPercentWater(parse(t, "Na2SO3")))
}

func TestCASValid(t *testing.T) {
	const shape = `write it as on the pack, for example "7757-83-7"`
	tests := []struct {
		in         string
		offset     int
		what, hint string
	}{
		{in: "7732-18-5"},
		{in: "10102-17-7"},
		{in: "50-81-7"},
		{in: "1234567-89-5"},
		{"7732-18-4", 8, "the check digit is 4, expected 5", "compare every digit with the pack"},
		{"7723-18-5", 8, "the check digit is 5, expected 4", "compare every digit with the pack"},
		{"7757-83-8", 8, "the check digit is 8, expected 7", "compare every digit with the pack"},
		{"", 0, "no number is written", shape},
		{"7732–18-5", 4, "'–' is neither a digit nor a hyphen", shape},
		{"7732-18-5 ", 9, "' ' is neither a digit nor a hyphen", shape},
		{"7732185", 2, "a hyphen is missing", shape},
		{"77321-8-5", 4, "a hyphen is missing", shape},
		{"77-32-18-5", 2, "a hyphen stands in the wrong place", shape},
		{"7-18-5", 0, "5 to 10 digits belong here, not 4", shape},
		{"12345678-18-5", 0, "5 to 10 digits belong here, not 11", shape},
		{"-18-5", 0, "5 to 10 digits belong here, not 3", shape},
		{"5", 0, "5 to 10 digits belong here, not 1", shape},
		{"07732-18-5", 0, "a zero in front", "a CAS number begins with another digit"},
	}
	for _, tt := range tests {
		t.Run(tt.in, func(t *testing.T) {
			err := CASValid(tt.in)
			if tt.what == "" {
				assert.NoError(t, err)
				return
			}
			assert.Equal(t, &Error{tt.offset, tt.what, tt.hint}, err)
		})
	}
}
