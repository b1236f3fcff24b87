package unit

import "time"

const daySeconds = 24 * 60 * 60

// Number counts the days from 1 January 1970.
func (d Date) Number() int { return int(d.time().Unix() / daySeconds) }

// DateNumber is the date of a number of days from 1 January 1970.
func DateNumber(n int) Date { return dateOf(time.Unix(int64(n)*daySeconds, 0).UTC()) }

// Later returns the last day of what begins on d and keeps for l. A calendar
// month ends at the latest on the last day of its month; what is left of a life
// after whole days is dropped, so that hours end the same evening.
func (d Date) Later(l Life) Date {
	if l.Months > 0 {
		first := Date{d.Year, d.Month, 1}.time().AddDate(0, l.Months, 0)
		last := first.AddDate(0, 1, -1).Day()
		return Date{first.Year(), first.Month(), min(d.Day, last)}
	}
	return d.AddDays(l.Days + int(l.Seconds/daySeconds))
}
