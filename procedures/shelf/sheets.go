package shelf

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// sheetYears is after how long a supplier's sheet is asked for anew: our own rule, because
// laws and mixtures change, and a sheet in a drawer does not.
const sheetYears = 3

// SheetLaw is the day of a change of law from which a newer sheet is asked for, and whether a
// day is that or a later one.
func SheetLaw(book *figure.Ledger, id string, change *lab.LawChange, day unit.Date) (since *figure.Record, come bool) {
	return figure.DeclareDate(book, id, change.On.Figure("ask for a new sheet from")), !day.IsZero() &&
		!day.Before(change.On.Date)
}

// SheetUntil is the last day on which a supplier's sheet is new enough, and whether a day
// lies behind it. Without a day nothing is too old.
func SheetUntil(book *figure.Ledger, id string, s *lab.SupplierSheet, day unit.Date) (until *figure.Record, old bool) {
	last := s.Edition.Later(unit.Life{Months: 12 * sheetYears})
	years := figure.Constant(unit.Days(last.Number()-s.Edition.Number()), "three years",
		"rule of the program: laws and mixtures change, and a sheet in a drawer does not", figure.Default)
	f := ends.Of(id, s.Edition.Figure("edition of the sheet"), years).Named("ask for a new sheet after")
	return figure.Enter(book, figure.ShowDate(f)), !day.IsZero() && last.Before(day)
}
