package work_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/work"
)

// limited is what the limit of something says of a bath of the binder permit.txtar.
func limited(t *testing.T, bath, of string, replace ...string) work.Allowed {
	t.Helper()
	for _, a := range archived(t, "permit.txtar", replace...).Bath(bath).Allowed {
		if a.Of == of {
			return a
		}
	}
	t.Fatalf("no limit of %s for %s", of, bath)
	return work.Allowed{}
}

// The answers of a limit.
const met, notMet, untold = "met", "not met", "cannot be told"

// TestPermitSilver: what is known of the silver in a bath that is poured, and where nobody can tell.
func TestPermitSilver(t *testing.T) {
	for _, c := range []struct {
		name, bath string
		replace    []string
		want       string
		is, why    string
	}{
		{"after two fills", "last.bath", nil, met, "0.44", ""},
		{"after one fill it is the second", "last.bath", []string{"fills = [5, 10]", "fills = [5]"}, notMet, "9.1", ""},
		{"nobody has worked out how much running water takes away", "last.bath", []string{"fills = [5, 10]", "flow = \"2 L/min\"\ntime = \"10:00\""}, untold, "0–200", "what is known of it lies on both sides of the limit"},
		{"where even all of it is little enough", "last.bath", []string{"fills = [5, 10]", "flow = \"2 L/min\"\ntime = \"10:00\"", `of = "silver", most = "1 mg/L"`, `of = "silver", most = "200 mg/L"`}, met, "0–200", ""},
		{"less water for a roll leaves more", "last.bath", []string{"takes = { 135 = 1 }", "takes = { 135 = 2 }"}, notMet, "1.4", ""},
		{"kept for more films, it gathers silver", "last.bath", []string{"use = \"one-shot\"\nph", "use = \"re-use\"\nph"}, untold, "", "nobody has worked out how much silver it takes up from film"},
		{"before the fixer", "last.bath", []string{"[[step]]\nid = \"fix\"\nbath = \"fixer.film\"\n", "[[step]]\nid = \"first\"\nbath = \"last.bath\"\ntime = \"1:00\"\nagitate = \"gentle\"\n[[step]]\nid = \"fix\"\nbath = \"fixer.film\"\n"},
			untold, "", "nobody has worked out how much silver it takes up from film"},
		{"a fixer without limits", "fixer.film", []string{"limits = [{ by = \"silver\", most = \"4 g/L\" }]", ""}, untold, "", "nobody has written how much fixer may do, and so what it holds when it is spent"},
		{"and what follows it", "last.bath", []string{"limits = [{ by = \"silver\", most = \"4 g/L\" }]", ""}, untold, "", "nobody has written how much fixer may do, and so what it holds when it is spent"},
		{"a paper whose silver nobody has written", "paper-fixer.tray", []string{"silver = { coated = \"1.4 g/m2\", undeveloped = \"90 %\" }", ""}, untold, "", "nobody has written the silver of paper"},
		{"what no process uses", "soda.stock", nil, untold, "", "no process says what is worked in it, and what it takes up"},
		{"no silver anywhere", "brush-rinse.tray", nil, met, "", "nothing in blue prints holds silver"},
		{"made with silver", "brush-rinse.tray", []string{"add = \"citric-acid.anhydrous\"\namount = \"2 g\"", "add = \"silver-nitrate.pure\"\namount = \"2 g\""}, untold, "", "it is made with silver, and nobody has worked out how much is left in it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := limited(t, c.bath, "silver", c.replace...)
			require.Equal(t, c.want, string(got.Meets))
			require.Equal(t, c.why, got.Why)
			if c.is == "" {
				require.Nil(t, got.Is)
			} else {
				require.Equal(t, c.is, got.Is.Shown)
			}
		})
	}
}

// TestPermitSubstance: a chemical counts as it is weighed, as long as no bath before it holds more.
func TestPermitSubstance(t *testing.T) {
	before := func(bath string) []string {
		return []string{"[[step]]\nid = \"rinse\"\n", "[[step]]\nid = \"first\"\nbath = \"" + bath + "\"\ntime = \"1:00\"\nagitate = \"gentle\"\n[[step]]\nid = \"rinse\"\n"}
	}
	for _, c := range []struct {
		name, bath, of string
		replace        []string
		want           string
		why            string
	}{
		{"more than allowed", "brush-rinse.tray", "citric-acid", nil, notMet, ""},
		{"just as much", "brush-rinse.tray", "citric-acid", []string{`of = "citric-acid", most = "1 g/L"`, `of = "citric-acid", most = "2 g/L"`}, met, ""},
		{"none, and none before it", "last.bath", "citric-acid", nil, met, "there is none in it, nor in any bath before it"},
		{"none before it either", "brush-rinse.tray", "isopropanol", append(before("soda.stock"), `of = "citric-acid"`, `of = "isopropanol"`), met, "there is none in it, nor in any bath before it"},
		{"none, but what is carried into it holds some", "brush-rinse.tray", "isopropanol", append(before("last.bath"), `of = "citric-acid"`, `of = "isopropanol"`), untold,
			"nobody has worked out how much of it comes into it with what is carried along from last bath"},
		{"what no process uses", "soda.stock", "citric-acid", nil, untold, "no process says what is worked in it, and what it takes up"},
		{"unless there is too much of it from the beginning", "brush-rinse.tray", "citric-acid", []string{"bath = \"brush-rinse.tray\"", "do = \"rinse\""}, notMet, ""},
		{"what nobody works out", "brush-rinse.tray", "cod", []string{`of = "citric-acid"`, `of = "cod"`}, untold, "nobody has worked out how much of it is in it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := limited(t, c.bath, c.of, c.replace...)
			require.Equal(t, c.want, string(got.Meets))
			require.Equal(t, c.why, got.Why)
		})
	}
}
