package unit

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Date is a day without a zone or a time.
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// IsZero reports a date that was left out.
func (d Date) IsZero() bool { return d == Date{} }

// String prints the ISO form.
func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day)
}

// InWords is the day as people say it: "Saturday 14 March 2026".
func (d Date) InWords() string { return d.time().Format("Monday 2 January 2006") }

func (d Date) time() time.Time { return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC) }

// Before reports whether d comes before e.
func (d Date) Before(e Date) bool { return d.time().Before(e.time()) }

// AddDays returns the date n days later.
func (d Date) AddDays(n int) Date { return dateOf(d.time().AddDate(0, 0, n)) }

func dateOf(t time.Time) Date { y, m, day := t.Date(); return Date{y, m, day} }

// ParseDate reads an ISO date.
func ParseDate(s string) (Date, error) {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		return Date{}, &Error{"date", strconv.Quote(s) + " is not a date",
			"write year-month-day, for example 2026-03-14"}
	}
	return dateOf(t), nil
}

// UnmarshalTOML takes a bare TOML date.
func (d *Date) UnmarshalTOML(v any) error {
	t, ok := v.(time.Time)
	if text, quoted := v.(string); quoted {
		if day, err := ParseDate(text); err == nil {
			return &Error{"date", strconv.Quote(text) + " stands in quotes, and a date has none", "write " +
				day.String() + ", without the quotes"}
		}
	}
	if !ok {
		return &Error{"date", fmt.Sprintf("%q is not a date", fmt.Sprint(v)),
			"write year-month-day without quotes, for example 2026-03-14"}
	}
	if h, m, s := t.Clock(); h != 0 || m != 0 || s != 0 {
		return &Error{"date", "a date with a time of day where a day is wanted",
			"write year-month-day alone, for example 2026-03-14"}
	}
	*d = dateOf(t)
	return nil
}

// Life is how long something keeps: hours and minutes, days, weeks, or
// calendar months. The zero value was left out.
type Life struct {
	text    string
	Seconds Seconds // for lives under a day
	Days    int
	Months  int
}

var life = regexp.MustCompile(`^([0-9]+)\s*([a-z]+)$`)

// Given reports whether the key was written.
func (l Life) Given() bool { return l.text != "" }

// Text returns the life as written.
func (l Life) Text() string { return l.text }

// Number and word of the life, such as 180 and "days".
func (l Life) Number() float64 {
	m := life.FindStringSubmatch(l.text)
	if m == nil {
		return 0
	}
	n, _ := strconv.ParseFloat(m[1], 64)
	return n
}

// Span is about how many days the life is, a month counted as a twelfth of a
// year: to compare lives, never to work out a date.
func (l Life) Span() float64 {
	return float64(l.Days) + float64(l.Months)*365.25/12 + float64(l.Seconds)/daySeconds
}

// Word returns the unit the life was written in.
func (l Life) Word() string {
	if m := life.FindStringSubmatch(l.text); m != nil {
		return m[2]
	}
	return ""
}

// UnmarshalText reads "180 days", "4 h", "30 min", "6 weeks", "3 months".
func (l *Life) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(string(b))
	bad := &Error{"life", strconv.Quote(string(b)) + " is not how long something keeps", `write whole minutes, hours, days, weeks, months or years, for example "180 days" or "4 h"`}
	m := life.FindStringSubmatch(s)
	if m == nil {
		return bad
	}
	n, err := strconv.Atoi(m[1])
	if err != nil || n == 0 || n > 36500 {
		return bad
	}
	got := Life{text: s}
	switch m[2] {
	case "min", "minute", "minutes":
		got.Seconds = Seconds(60 * n)
	case "h", "hour", "hours":
		got.Seconds = Seconds(3600 * n)
	case "day", "days":
		got.Days = n
	case "week", "weeks":
		got.Days = 7 * n
	case "month", "months":
		got.Months = n
	case "year", "years":
		if n > 100 {
			return bad
		}
		got.Months = 12 * n
	default:
		return bad
	}
	*l = got
	return nil
}
