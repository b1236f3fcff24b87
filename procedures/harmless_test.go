package procedures_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render"
	"wetside/content"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
)

// TestTreatmentNeedsAPermit: amounts that make waste harmless stand on a card under a recorded permit
// alone: not where nobody has asked, and not where it was refused. The figures are there all the same,
// for the person who may.
func TestTreatmentNeedsAPermit(t *testing.T) {
	const granted = "treat = \"letter 12 of 2026-01-05 (invented)\""
	texts := func(permit string) (map[string]string, procedures.Binder) {
		loaded := binders.Loaded(t, binders.Read(t, "../testdata/binders/treat.txtar", granted, permit), content.FS)
		b, _ := procedures.Compute(loaded.Lab, unit.Date{Year: 2026, Month: 3, Day: 14})
		out := map[string]string{}
		for _, p := range b.Pages {
			out[p.ID] = render.Terminal(page.OnScreen(p, -1), 0, 300)
		}
		return out, b
	}
	with, _ := texts(granted)
	require.Contains(t, with["dispose/acids"], "18 g")
	require.Contains(t, with["dispose/acids"], "sodium hydrogencarbonate")
	require.Contains(t, with["dispose/acids"], "under the permit letter 12")
	require.Contains(t, with["dispose/bleach"], "stop when the colour is gone")
	require.NotContains(t, with["dispose/acids"], "this binder has no recipe")
	require.NotContains(t, with["dispose/silver"], "Making it harmless")
	require.Contains(t, with["dispose/silver"], "this binder has no recipe")
	for _, refused := range []string{"", "treat = \"none\""} {
		without, b := texts(refused)
		for id, text := range without {
			require.NotContains(t, text, "Making it harmless", id)
			require.NotContains(t, strings.ToLower(text), "add it spoon by spoon", id)
		}
		require.NotContains(t, without["dispose/acids"], "hydrogencarbonate")
		i := slices.IndexFunc(b.Answers, func(r *figure.Record) bool { return r.ID == "stop.stock/treat.sodium-hydrogencarbonate" })
		require.GreaterOrEqual(t, i, 0)
		require.Contains(t, b.Answers[i].Name, "for the person who may treat waste")
	}
}
