package page

import "wetside/procedures/figure"

// Chart is lines and limits drawn to scale; each value is a figure. X and Y are
// the words at the axes.
type Chart struct {
	Only
	Caption    Text
	X, Y       string
	LogX, LogY bool
	Lines      []ChartLine
	Limits     []ChartLimit
	Note       Text
}

// ChartLine is one line of a chart. EachX writes the value of X under each point.
type ChartLine struct {
	Label    string
	FromZero bool
	EachX    bool
	Points   []ChartPoint
}

// ChartPoint is a point of a line: two figures.
type ChartPoint struct{ X, Y *figure.Record }

// ChartLimit is a straight limit: of Y, or of X. Beyond it the chart is hatched.
type ChartLimit struct {
	Label  string
	At     *figure.Record
	OfX    bool
	Beyond bool
}

// Block implements Block.
func (Chart) Block() string { return "chart" }

// Sifted implements Block.
func (c Chart) Sifted(s *Sieve) Block {
	c.Caption = s.text(c.Caption)
	for _, line := range c.Lines {
		for _, p := range line.Points {
			s.figure(p.X)
			s.figure(p.Y)
		}
	}
	for _, l := range c.Limits {
		s.figure(l.At)
	}
	c.Note = s.text(c.Note)
	return c
}

// Empty implements Block.
func (c Chart) Empty() bool { return len(c.Lines) == 0 && len(c.Limits) == 0 }
