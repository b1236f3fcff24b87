package work

import (
	"strings"

	"wetside/procedures/unit"
)

// LabelSheet is the lab's own label stock. Its lengths are in hundredths of a millimetre.
type LabelSheet struct {
	Paper string
	// Start is the first label that is still on the sheet, counted from one.
	Rows, Columns, Start int
	Width, Height        int
	// PitchX and PitchY are from the edge of one label to the same edge of the next.
	PitchX, PitchY int
	Left, Top      int
	// Wanted are the labels that the lab has named; none: all that there are.
	Wanted []WantedLabel
}

// WantedLabel is a label that the lab wants on its sheet.
type WantedLabel struct {
	// Card is a strength, a batch or a drum, and Bottle the size that it is drawn for;
	// empty: any.
	Card, Bottle string
}

// labelSheet is the stage of the label stock.
func (w *Work) labelSheet() {
	s := w.lab.Place.Print.Sheet
	if s == nil {
		return
	}
	hundredths := func(q unit.Quantity[unit.Length]) int { return int(float64(q.Value())*100 + .5) }
	sheet := &LabelSheet{Paper: s.Paper, Rows: s.Rows, Columns: s.Columns, Start: s.Start,
		Width: hundredths(s.Width.Quantity), Height: hundredths(s.Height.Quantity),
		PitchX: hundredths(s.PitchX.Quantity), PitchY: hundredths(s.PitchY.Quantity),
		Left: hundredths(s.Left.Quantity), Top: hundredths(s.Top.Quantity)}
	if !s.PitchX.Given() {
		sheet.PitchX = sheet.Width
	}
	if !s.PitchY.Given() {
		sheet.PitchY = sheet.Height
	}
	for _, want := range s.Labels {
		card, bottle, _ := strings.Cut(want, "@")
		sheet.Wanted = append(sheet.Wanted, WantedLabel{card, bottle})
	}
	w.LabelSheet = sheet
}
