package render

import (
	"html/template"
	"math"
	"strings"
	"wetside/build/render/draw"
	"wetside/build/render/labels"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// Shown draws a sign of the given height in mm; a pictogram's is that of its
// side, not of the square around it.
func (v *shown) Shown(code string, side float64) template.HTML {
	name := v.Symbol(code)
	if name == "" {
		return ""
	}
	if strings.HasPrefix(code, "GHS") {
		side *= math.Sqrt2
	}
	s := draw.MM(side)
	return template.HTML(`<svg class="shown" width="` + s + `mm" height="` + s + `mm" viewBox="0 0 100 100" role="img" aria-label="` + template.HTMLEscapeString(code) + `"><use href="#` + name + `" width="100" height="100"/></svg>`)
}

// Drawing draws what a drawn face is for.
func (v *shown) Drawing() (svg template.HTML, err error) {
	svg, v.size, err = v.site.drawer.Draw(v.View, v.container)
	return svg, err
}

// Labels draws the page's label for every container.
func (v *shown) Labels() []labels.Made { return v.site.drawer.All(v.View) }

// Sheets lays labels out on their stock, and tells what is left out of it.
func (v *shown) Sheets() labels.Laid {
	l := v.site.drawer.Sheet(v.View)
	v.size = l.Size
	if say := v.site.options.LeftOut; say != nil && len(l.TooLong) > 0 {
		say(l.TooLong)
	}
	return l
}

// Listed puts names behind each other.
func (v *shown) Listed(list []string) string { return strings.Join(list, " · ") }

// PageClass is the class that gives a drawn sheet its paper.
func (v *shown) PageClass() string { return theme.PageName(v.size) }

// SignPath is the way to the sign of the page on its own sheet, or empty.
func (v *shown) SignPath() string {
	s, ok := view.BlockOf[page.Sign](v.Page)
	f, has := v.site.binder.Theme.Face("sign")
	if !ok || !has {
		return ""
	}
	return v.Href(labels.SignPath(f, v.Page.ID, s))
}

// SignHere draws the sign inside another page.
func (v *shown) SignHere() template.HTML {
	other := *v.View
	other.Page = page.OnPaper(v.Page, v.Choice)
	svg, _ := labels.Sign(&other)
	v.Symbols = other.Symbols
	return svg
}
