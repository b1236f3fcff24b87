package unit

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestLater(t *testing.T) {
	for _, c := range []struct{ from, life, want, why string }{
		{"2026-01-20", "180 days", "2026-07-19", "plain days"},
		{"2026-02-28", "60 days", "2026-04-29", "over the end of March"},
		{"2026-01-31", "1 month", "2026-02-28", "clamped to the month's last day"},
		{"2024-01-31", "1 month", "2024-02-29", "a leap year"},
		{"2024-02-29", "12 months", "2025-02-28", "a leap day, a year on"},
		{"2024-02-28", "2 days", "2024-03-01", "over a leap day"},
		{"2026-08-31", "6 months", "2027-02-28", "over a new year"},
		{"2025-12-31", "2 months", "2026-02-28", "over a new year, clamped"},
		{"2026-01-30", "2 weeks", "2026-02-13", "weeks"},
		{"2026-03-14", "8 h", "2026-03-14", "hours end the same evening"},
		{"2026-03-14", "24 h", "2026-03-15", "a whole day"},
		{"2026-03-14", "36 h", "2026-03-15", "what is left of a day is dropped"},
	} {
		t.Run(c.why, func(t *testing.T) {
			from, err := ParseDate(c.from)
			require.NoError(t, err)
			var l Life
			require.NoError(t, l.UnmarshalText([]byte(c.life)))
			require.Equal(t, c.want, from.Later(l).String())
		})
	}
}

// TestParseDate: what is no day is no date.
func TestParseDate(t *testing.T) {
	for _, bad := range []string{"", "2026-02-30", "2026-13-01", "14.03.2026", "2026-3-14", "2026-03-14T10:00:00Z"} {
		d, err := ParseDate(bad)
		require.ErrorContains(t, err, "is not a date", bad)
		require.True(t, d.IsZero(), bad)
	}
}

// TestQuotedDate: a date in quotes is not said to be none.
func TestQuotedDate(t *testing.T) {
	for text, want := range map[string]Error{
		"2026-03-14": {"date", `"2026-03-14" stands in quotes, and a date has none`, "write 2026-03-14, without the quotes"},
		"14.03.2026": {"date", `"14.03.2026" is not a date`, "write year-month-day without quotes, for example 2026-03-14"},
	} {
		var d Date
		require.Equal(t, &want, d.UnmarshalTOML(text))
	}
}

func TestDateNumber(t *testing.T) {
	for _, c := range []struct {
		date string
		want int
	}{{"1970-01-01", 0}, {"1969-12-31", -1}, {"2026-03-14", 20526}, {"2024-02-29", 19782}} {
		d, err := ParseDate(c.date)
		require.NoError(t, err)
		require.Equal(t, c.want, d.Number())
		require.Equal(t, d, DateNumber(c.want))
	}
}
