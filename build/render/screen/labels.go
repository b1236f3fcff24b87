package screen

import (
	"html/template"
	"strings"

	"wetside/build/render/labels"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// Drawing draws what a drawn face is for.
func (v *shown) Drawing() (svg template.HTML, err error) {
	svg, v.size, err = v.pages.drawer.Draw(v.View, v.container)
	return svg, err
}

// Labels draws the page's label for every container.
func (v *shown) Labels() []labels.Made { return v.pages.drawer.All(v.View) }

// Sheets lays labels out on their stock, and tells what is left out of it.
func (v *shown) Sheets() labels.Laid {
	l := v.pages.drawer.Sheet(v.View)
	v.size = l.Size
	if say := v.pages.leftOut; say != nil && len(l.TooLong) > 0 {
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
	f, has := v.pages.binder.Theme.Face("sign")
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

// HasLabel tells whether the page holds a label.
func (v *shown) HasLabel() bool {
	_, ok := view.LabelOf(v.Page)
	return ok
}

// LabelCards are the ways to the labels of the page on their own sheets.
func (v *shown) LabelCards() []navLink {
	f, ok := v.pages.binder.Theme.Face("label")
	if !ok {
		return nil
	}
	l, _ := view.LabelOf(v.Page)
	var out []navLink
	for _, c := range l.For {
		out = append(out, navLink{Word: labels.Holds(c), Href: v.Href(labels.Path(f, v.Page.ID, c))})
	}
	return out
}
