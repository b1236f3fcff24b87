package render

import (
	"bytes"
	"fmt"
	"time"

	ics "github.com/arran4/golang-ical"

	"wetside/build/render/screen"
	"wetside/build/render/view"
	"wetside/procedures/page"
)

// calendar writes the discard dates as all-day events (RFC 5545). An event's
// name hangs on its batch and its lab alone, so that a calendar that has read
// the file before moves its events instead of adding others; its stamp is the
// binder's day, so that equal input gives equal bytes.
func (s *site) calendar() ([]File, error) {
	if len(s.binder.Discards) == 0 {
		return nil, nil
	}
	day, err := time.Parse(time.DateOnly, s.binder.Day)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", screen.CalendarPath, err)
	}
	cal := ics.NewCalendar()
	cal.SetProductId("-//wetside//discard dates//EN")
	cal.SetXWRCalName("Discard dates, " + s.binder.Lab)
	for _, d := range s.binder.Discards {
		if err := s.event(cal, d, day); err != nil {
			return nil, err
		}
	}
	var b bytes.Buffer
	if err := cal.SerializeTo(&b, ics.WithNewLineWindows); err != nil {
		return nil, fmt.Errorf("%s: %w", screen.CalendarPath, err)
	}
	return []File{{screen.CalendarPath, b.Bytes()}}, nil
}

func (s *site) event(cal *ics.Calendar, d page.Discard, stamp time.Time) error {
	on, err := time.Parse(time.DateOnly, d.On)
	if err != nil {
		return fmt.Errorf("%s: batch %s: %w", screen.CalendarPath, d.Batch, err)
	}
	e := cal.AddEvent(d.Batch + "." + view.Slug(s.binder.Lab) + "@discard.wetside")
	e.SetDtStampTime(stamp)
	e.SetAllDayStartAt(on)
	e.SetAllDayEndAt(on.AddDate(0, 0, 1))
	summary := "Discard " + d.Batch + ": " + d.What
	if s.binder.Demonstration {
		summary = "DEMONSTRATION: " + summary
	}
	e.SetSummary(summary)
	e.SetDescription(d.Says)
	e.SetTimeTransparency(ics.TransparencyTransparent)
	return nil
}
