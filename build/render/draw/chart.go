package draw

import (
	"html/template"
	"math"
	"strings"

	"wetside/build/render/wording"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// Size of a chart in mm, its plot, and the room for what stands beside it.
const (
	ChartWide, ChartHigh = 150.0, 62.0
	plotLeft, plotTop    = 3.0, 6.0
	plotRight, plotFoot  = 112.0, 52.0
)

// dashes tell lines apart without colour.
var dashes = []string{"", "3 1.4", ".9 1.2", "5 1.2 .9 1.2"}

// scaleOf maps values of one axis to millimetres.
type scaleOf struct {
	low, high, from, to float64
	log                 bool
}

func (s scaleOf) at(x float64) float64 {
	if s.log {
		x = math.Log10(math.Max(x, math.Pow10(-9)))
	}
	x = math.Min(math.Max(x, s.low), s.high)
	return s.from + (x-s.low)/(s.high-s.low)*(s.to-s.from)
}

// Chart draws lines and limits to scale. Everything is labelled where it stands;
// what lies beyond a limit is hatched.
func Chart(c page.Chart, choice int) template.HTML {
	value := func(r *figure.Record) (float64, bool) {
		if r.Refused() {
			return 0, false
		}
		return r.Value, true
	}
	var xs, ys []float64
	note := func(list *[]float64, r *figure.Record) {
		if x, ok := value(r); ok {
			*list = append(*list, x)
		}
	}
	for _, l := range c.Lines {
		if l.FromZero {
			xs, ys = append(xs, 0), append(ys, 0)
		}
		for _, p := range l.Points {
			note(&xs, p.X)
			note(&ys, p.Y)
		}
	}
	for _, l := range c.Limits {
		if l.OfX {
			note(&xs, l.At)
		} else {
			note(&ys, l.At)
		}
	}
	if len(xs) < 2 || len(ys) < 2 {
		return ""
	}
	x := spread(xs, c.LogX, plotLeft, plotRight)
	y := spread(ys, c.LogY, plotFoot, plotTop)
	var d Drawing
	chartZones(&d, c, x, y, value)
	d.Line(plotLeft, plotFoot, plotRight, plotFoot, .4)
	d.Line(plotLeft, plotFoot, plotLeft, plotTop-2, .4)
	d.Text(plotRight, plotFoot+8.5, 3.3, false, "end", "", c.X)
	d.Text(plotLeft+1, plotTop-2.4, 3.3, false, "", "", c.Y)
	chartLines(&d, c, x, y, value)
	label := "chart: " + wording.Plain(c.Caption, choice)
	for _, l := range c.Limits {
		label += "; " + l.Label
	}
	return d.SVG("chart", label, 0, 0, ChartWide, ChartHigh)
}

func spread(list []float64, log bool, from, to float64) scaleOf {
	low, high := math.Inf(1), math.Inf(-1)
	for _, x := range list {
		if log {
			x = math.Log10(math.Max(x, math.Pow10(-9)))
		}
		low, high = math.Min(low, x), math.Max(high, x)
	}
	if high-low < 1e-9 {
		high = low + 1
	}
	room := (high - low) * .16
	if !log && low >= 0 {
		return scaleOf{0, high + high*.16, from, to, false}
	}
	return scaleOf{low - room, high + room, from, to, log}
}

// chartZones hatches what lies beyond the limits, each once.
func chartZones(d *Drawing, c page.Chart, x, y scaleOf, value func(*figure.Record) (float64, bool)) {
	right, top := plotRight, plotTop-1.5
	for _, l := range c.Limits {
		if at, ok := value(l.At); ok && l.Beyond {
			if l.OfX {
				right = math.Min(right, x.at(at))
			} else {
				top = math.Max(top, y.at(at))
			}
		}
	}
	if top > plotTop-1 {
		d.Hatch(plotLeft, plotTop-1.5, plotRight-plotLeft, top-plotTop+1.5, 2.2)
	}
	if right < plotRight-.5 {
		d.Hatch(right, top, plotRight-right, plotFoot-top, 2.2)
	}
	taken := []float64{}
	for i, l := range c.Limits {
		at, ok := value(l.At)
		if !ok {
			continue
		}
		said := strings.TrimSpace(l.Label + " " + l.At.Shown + " " + wording.Unit(l.At))
		extra := ` data-f="` + template.HTMLEscapeString(l.At.ID) + `"`
		if l.OfX {
			d.Line(x.at(at), plotFoot, x.at(at), plotTop-1.5, .55)
			d.Text(x.at(at), plotFoot+4.2, 3.3, true, "middle", extra, said)
			continue
		}
		h := y.at(at)
		d.Add(`<path d="M` + MM(plotLeft) + ` ` + MM(h) + `H` + MM(plotRight) +
			`" stroke="currentColor" stroke-width=".55" stroke-dasharray="` + dashes[1+i%3] + `" fill="none"/>`)
		d.Text(plotRight+1.5, clear(&taken, h+1.1), 3.3, true, "", extra, said)
	}
}

// clear finds a height for a label that no other label has taken.
func clear(taken *[]float64, at float64) float64 {
	for moved := true; moved; {
		moved = false
		for _, t := range *taken {
			if math.Abs(t-at) < 3.9 {
				at, moved = t+4, true
			}
		}
	}
	*taken = append(*taken, at)
	return at
}

func chartLines(d *Drawing, c page.Chart, x, y scaleOf, value func(*figure.Record) (float64, bool)) {
	for i, l := range c.Lines {
		var path strings.Builder
		put := func(px, py float64) {
			if path.Len() == 0 {
				path.WriteString("M")
			} else {
				path.WriteString("L")
			}
			path.WriteString(MM(px) + " " + MM(py))
		}
		if l.FromZero {
			put(x.at(0), y.at(0))
		}
		lastX, lastY := x.at(0), y.at(0)
		for _, p := range l.Points {
			px, okX := value(p.X)
			py, okY := value(p.Y)
			if !okX || !okY {
				continue
			}
			lastX, lastY = x.at(px), y.at(py)
			put(lastX, lastY)
			at := ` data-f="` + template.HTMLEscapeString(p.Y.ID) + `"`
			d.Add(`<circle cx="` + MM(lastX) + `" cy="` + MM(lastY) + `" r="1" fill="currentColor"/>`)
			said := p.Y.Shown
			d.halo(lastX+1.8, lastY-1.6, 3.3, at, said)
			if l.EachX {
				d.Text(lastX, plotFoot+4.2, 3.3, false, "middle", ` data-f="`+template.HTMLEscapeString(p.X.ID)+`"`,
					p.X.Shown)
			}
		}
		d.Add(`<path d="` + path.String() + `" stroke="currentColor" stroke-width=".8" stroke-dasharray="` +
			dashes[i%len(dashes)] + `" fill="none"/>`)
		if l.Label != "" {
			d.halo((x.at(0)+lastX)/2+2, (y.at(0)+lastY)/2+4, 3.3, "", l.Label)
		}
	}
}

// halo writes a text that stays readable over a hatch.
func (d *Drawing) halo(x, y, size float64, extra, s string) {
	d.Text(x, y, size, true, "", extra+` class="halo"`, s)
}
