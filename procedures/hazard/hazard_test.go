package hazard

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

func chemical(name string, h *lab.Hazards) *lab.Chemical {
	c := &lab.Chemical{Name: name, Hazards: h}
	c.ID, c.File = name, "chemicals/"+name+".toml"
	return c
}

func looked(classes []string, extra ...string) *lab.Hazards {
	return &lab.Hazards{Classes: classes, Extra: extra, Assessed: &lab.Assessed{By: "KH1", On: unit.Date{Year: 2026, Month: 1, Day: 12}}}
}

// TestSilenceIsNeverSafety: what nobody has looked up asks for everything.
func TestSilenceIsNeverSafety(t *testing.T) {
	l := &lab.Lab{}
	for _, c := range []struct {
		name     string
		hazards  *lab.Hazards
		status   Status
		signal   string
		gear     []string
		pregnant bool
	}{
		{"nobody has looked", nil, Unknown, "", []string{"goggles", "gloves", "apron", "dust mask", "extract on"}, true},
		{"classes left out", &lab.Hazards{Extra: []string{"EUH031"}}, Unknown, "", []string{"goggles", "gloves", "apron", "dust mask", "extract on"}, true},
		{"looked, none", looked([]string{}), None, "", []string{"goggles", "gloves"}, false},
		{"an irritant", looked([]string{"Eye Irrit. 2"}), Carried, "Warning", []string{"goggles", "gloves"}, false},
		{"gives gas with acid", looked([]string{}, "EUH031"), Carried, "", []string{"goggles", "gloves", "extract on"}, false},
		{"corrosive", looked([]string{"Skin Corr. 1A"}), Carried, "Danger", []string{"goggles", "face shield", "gloves", "apron", "dust mask"}, false},
		{"harms the unborn child", looked([]string{"Repr. 1B (FD)"}), Carried, "Danger", []string{"goggles", "gloves", "apron", "dust mask", "extract on"}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := OfChemical(l, chemical("x", c.hazards))
			require.Equal(t, c.status, k.Status)
			require.Equal(t, c.signal, k.Signal())
			var words []string
			for _, i := range Gear(Weigh, k) {
				words = append(words, i.Word)
				require.NotEmpty(t, i.Because, "%s without a reason", i.Word)
			}
			require.Equal(t, c.gear, words)
			require.Equal(t, c.pregnant, Pregnant(k))
		})
	}
}

// TestMergeKeepsEverything: one unknown among known baths makes all unknown, and
// nothing known is lost.
func TestMergeKeepsEverything(t *testing.T) {
	l := &lab.Lab{}
	known := OfChemical(l, chemical("known", looked([]string{"Eye Dam. 1"}, "EUH031")))
	unknown := OfChemical(l, chemical("unknown", nil))
	both := Merge(known, unknown, known)
	require.Equal(t, Unknown, both.Status)
	require.True(t, both.Has("Eye Dam. 1"))
	require.True(t, both.HasExtra("EUH031"))
	require.Equal(t, []string{"unknown"}, both.Missing)
	require.Equal(t, []string{"known"}, both.Classes[0].Because)
	require.Equal(t, Carried, Merge(known).Status)
}

// TestClassTable: words are unique, every class has a code and a statement.
func TestClassTable(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range classes {
		require.False(t, seen[c.Word], c.Word)
		seen[c.Word] = true
		require.Regexp(t, `^H[0-9]{3}[A-Za-z]*$`, c.Code)
		require.NotEmpty(t, c.Statement)
		require.False(t, c.Danger && c.Warning, c.Word)
	}
	require.Equal(t, []string{"Skin Sens. 1", "Skin Sens. 1A", "Skin Sens. 1B"}, WordsOf("H317"))
}
