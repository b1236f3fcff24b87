package work_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/content"
	"wetside/procedures/unit"
	"wetside/procedures/work"
	"wetside/testdata/binders"
)

// archived works out one of the whole binders of testdata, with some of its text changed.
func archived(t *testing.T, name string, change ...string) *work.Work {
	t.Helper()
	got := binders.Loaded(t, binders.Read(t, "../../testdata/binders/"+name, change...), content.FS)
	return work.Of(got.Lab, unit.Date{Year: 2026, Month: 3, Day: 14})
}

func drum(w *work.Work, id string) *work.Drum {
	for _, d := range w.Drums {
		if d.ID == id {
			return d
		}
	}
	return nil
}

// TestDrumLeavesOut: what a drum's month does not count is named, each with its reason, and what is
// mended is counted.
func TestDrumLeavesOut(t *testing.T) {
	for name, x := range map[string]struct {
		change []string
		want   []string
	}{
		"as it is": {want: []string{"in the bleach: Slides", "no volume: Films hold", "no month: Proofs"}},
		"a month for the proofs": {change: []string{"slides = \"4 film.roll\"", "slides = \"4 film.roll\"\nproofs = \"1 film.roll\""},
			want: []string{"in the bleach: Slides", "no volume: Films hold"}},
		"bleached after the fixer": {change: []string{"id = \"bleach\"\nbath = \"bleach.stock\"", "id = \"first\"\nbath = \"fixer.stock\""},
			want: []string{"no volume: Films hold", "no month: Proofs"}},
		"the hold water goes nowhere": {change: []string{"waste = \"fixers\"\n[[step]]\nid = \"wash\"", "[[step]]\nid = \"wash\""},
			want: []string{"in the bleach: Slides", "no month: Proofs"}},
		"no limit": {change: []string{"limits = [{ by = \"silver\", most = \"3 g/L\" }]", ""},
			want: []string{"no limit: fixer", "no volume: Films hold", "no month: Proofs"}},
		"no silver": {change: []string{"silver = { coated = \"5 g/m2\", undeveloped = \"60 %\" }", "", "by = \"silver\", most = \"3 g/L\"", "by = \"rolls\", most = \"20 rolls/L\""},
			want: []string{"no silver: Films", "in the bleach: Slides", "no volume: Films hold", "no month: Proofs"}},
		"no tank takes it": {change: []string{"takes = { 135 = 2 }", "takes = { 120 = 2 }"},
			want: []string{"in the bleach: Slides", "no volume: Films hold", "no volume: Films wash", "no month: Proofs"}},
	} {
		m := drum(archived(t, "drums.txtar", x.change...), "silver").Month
		require.NotNil(t, m, name)
		var got []string
		for _, l := range m.Left {
			words := map[work.LeftOutWhy]string{work.NoVolume: "no volume: ", work.NoMonth: "no month: ", work.NoLimit: "no limit: ",
				work.NoSilver: "no silver: ", work.InBleach: "in the bleach: "}[l.Why]
			switch {
			case l.Bath != nil:
				words += l.Bath.Name()
			case l.Why == work.NoVolume:
				words += l.Process.Name + " " + l.Step.ID
			default:
				words += l.Process.Name
			}
			got = append(got, words)
		}
		require.Equal(t, x.want, got, name)
	}
}

// TestDrumMonth: more in the drum fills it sooner, and what it brings of silver hangs on the fixer.
func TestDrumMonth(t *testing.T) {
	as := drum(archived(t, "drums.txtar"), "silver").Month
	fuller := drum(archived(t, "drums.txtar", "level = \"5 L\"", "level = \"17 L\""), "silver").Month
	require.Less(t, fuller.Days.Value, as.Days.Value)
	require.Less(t, fuller.By.Value, as.By.Value)
	over := drum(archived(t, "drums.txtar", "level = \"5 L\"", "level = \"19 L\""), "silver").Month
	require.Equal(t, "0", over.Days.Shown, "above the line it is full now")
	empty := drum(archived(t, "drums.txtar", "level = \"5 L\"\nlevel_on = 2026-03-01\n", ""), "silver").Month
	require.Greater(t, empty.Days.Value, as.Days.Value)
	require.Nil(t, empty.Now)
	require.Nil(t, empty.By)
	undated := drum(archived(t, "drums.txtar", "level_on = 2026-03-01\n", ""), "silver").Month
	require.NotNil(t, undated.Now)
	require.Nil(t, undated.By, "nobody knows when somebody looked")
	require.Nil(t, drum(archived(t, "drums.txtar"), "developer").Month.Silver)
	require.Nil(t, drum(archived(t, "drums.txtar"), "spare").Month)
	both := drum(archived(t, "drums.txtar", "by = \"silver\", most = \"3 g/L\"", "by = \"silver\", most = \"1.5 g/L\""), "silver").Month
	require.InDelta(t, as.Silver.Value, both.Silver.Value, 1e-9, "half the limit is twice the fixer with the same silver")
	require.InDelta(t, 2*as.Streams[0].Litres.Value, both.Streams[0].Litres.Value, 1e-6)
}
