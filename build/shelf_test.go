package build_test

import (
	"bytes"
	"io/fs"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"
	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/content"
	"wetside/procedures/page"
	"wetside/procedures/unit"
)

// TestCalendar reads the calendar back: one all-day event for every batch that
// has a date, on that date, stamped with the binder's day.
func TestCalendar(t *testing.T) {
	r := demonstration(t)
	var text []byte
	for _, f := range r.Files {
		if f.Path == "shelf/discard.ics" {
			text = f.Bytes
		}
	}
	require.NotEmpty(t, text)
	for _, line := range strings.SplitAfter(string(text), "\n") {
		if line != "" {
			require.True(t, strings.HasSuffix(line, "\r\n"), "%q", line)
			require.LessOrEqual(t, len(line), 77, "%q", line)
		}
	}
	cal, err := ics.ParseCalendar(bytes.NewReader(text))
	require.NoError(t, err)
	dies := map[string]string{}
	for _, f := range r.Binder.Figures {
		if batch, ok := strings.CutSuffix(f.ID, "/dies"); ok && f.Date != "" {
			dies[batch] = f.Date
		}
	}
	require.Len(t, dies, 12)
	require.Len(t, cal.Events(), len(dies))
	for _, e := range cal.Events() {
		batch, _, _ := strings.Cut(e.Id(), ".")
		require.Equal(t, batch+".sandhythe-community-darkroom@discard.wetside", e.Id())
		start, err := e.GetAllDayStartAt()
		require.NoError(t, err)
		require.Equal(t, dies[batch], start.Format(time.DateOnly), batch)
		end, err := e.GetAllDayEndAt()
		require.NoError(t, err)
		require.Equal(t, start.AddDate(0, 0, 1), end)
		require.Equal(t, "20260314T000000Z", e.GetProperty(ics.ComponentPropertyDtstamp).Value)
		require.Contains(t, e.GetProperty(ics.ComponentPropertySummary).Value, batch)
		delete(dies, batch)
	}
	require.Empty(t, dies)
}

// TestNoShelf: a binder without batches has no board and no calendar.
func TestNoShelf(t *testing.T) {
	src, err := fs.Sub(content.FS, "starter")
	require.NoError(t, err)
	r, err := build.Bind(options(src))
	require.NoError(t, err)
	for _, f := range r.Files {
		require.False(t, strings.HasPrefix(f.Path, "shelf/"), f.Path)
	}
	for _, p := range r.Binder.Pages {
		require.Empty(t, p.Today, p.ID)
	}
}

// TestDayStaysOut: what hangs on the day stands on the mixing cards and leaves
// their fingerprints alone.
func TestDayStaysOut(t *testing.T) {
	src, err := fs.Sub(content.FS, "demo")
	require.NoError(t, err)
	prints := func(on unit.Date) (map[string]string, map[string]page.Page) {
		o := options(src)
		o.On = on
		r, err := build.Work(o)
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
		digests, pages := map[string]string{}, map[string]page.Page{}
		for _, p := range r.Binder.Pages {
			pages[p.ID] = p
			digests[p.ID] = page.Digest(p)
		}
		return digests, pages
	}
	now, cards := prints(march14)
	later, aged := prints(unit.Date{Year: 2026, Month: 6, Day: 1})
	require.NotEqual(t, now["shelf/index"], later["shelf/index"])
	mixing := 0
	for id, p := range cards {
		if p.Kind != "mixing" {
			continue
		}
		mixing++
		require.NotEmpty(t, p.Today, id)
		require.Equal(t, now[id], later[id], id)
	}
	require.Greater(t, mixing, 5)
	require.NotEqual(t, cards["mix/fixer"].Today, aged["mix/fixer"].Today)
}

// TestDemonstrationShelf: until when a developer is good and how long the next
// film takes in a used one; the only strong stock of stop is past its date, and
// the card that tells how much of it to take says so.
func TestDemonstrationShelf(t *testing.T) {
	r := demonstration(t)
	for _, f := range r.Files {
		if f.Path == "mix/citric-stop.html" {
			require.Regexp(t, `0305</a>.{0,80}<strong>dead</strong> since .{0,200}2026-02-28`, string(f.Bytes))
		}
		if f.Path == "wall/a5/citric-stop.stock+1000ml.html" {
			require.NotContains(t, string(f.Bytes), "0305", "what hangs on the day is not laminated")
		}
	}
	shown := map[string]string{}
	for _, f := range r.Binder.Figures {
		shown[f.ID] = f.Shown
	}
	require.Equal(t, "2026-07-19", shown["0301/dies.full"])
	require.Equal(t, "2026-04-29", shown["0301/dies"])
	require.Equal(t, "380", shown["0301/left"])
	require.Equal(t, "10:30", shown["0302/next@film-400"])
	require.Equal(t, "3.0", shown["0307/silver"])
	require.Equal(t, "1.67", shown["0307/clearing"])
	answers := map[string]string{}
	for _, v := range r.Binder.Verdicts {
		answers[v.ID] = v.Answer + "; " + strings.Join(v.Because, "; ")
	}
	for _, dead := range []string{"0303", "0305", "0310"} {
		require.Contains(t, answers[dead+"/state"], "dead", dead)
	}
	require.Contains(t, answers["0301/state"], `good; reason "opened": discard by 2026-04-29`)
}
