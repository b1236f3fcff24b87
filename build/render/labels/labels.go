// Package labels draws what is glued on, hung up or stood beside a tray: labels of bottles, on
// sheets of their own or on a sheet of labels, signs, and the strip that times a bath. Each is
// drawn on the smallest paper that holds it whole; nothing is ever left out of it.
package labels

import (
	"html/template"
	"path"
	"strings"
	"sync"

	"wetside/build/render/view"
	"wetside/build/render/wording"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// Drawer draws the labels, signs and strips of a binder. Several goroutines may use it at
// once. Since each label stands on its page and on a sheet of its own, it keeps a label that
// it has drawn until it is wanted again.
type Drawer struct {
	binder *view.Binder
	drawn  sync.Map
}

// NewDrawer draws for a binder.
func NewDrawer(b *view.Binder) *Drawer { return &Drawer{binder: b} }

// Draw draws what the view's face is for, a label for the container of that name, and
// returns the size of its paper in mm. Only a strip can fail: it needs a step whose time is
// known.
func (m *Drawer) Draw(v *view.View, container string) (svg template.HTML, size []float64, err error) {
	switch v.Face.Name {
	case "strip":
		svg, err = pen{v}.strip()
		return svg, v.Face.Size, err
	case "sign":
		svg, size = Sign(v)
		return svg, size, nil
	}
	l, ok := view.LabelOf(v.Page)
	if !ok {
		return "", v.Face.Size, nil
	}
	var c page.Container
	for _, other := range l.For {
		if other.Name == container {
			c = other
		}
	}
	svg, size = m.label(v, l, c)
	return svg, size, nil
}

// label draws a label for a container. One that no size holds is drawn longer
// than the last: nothing is ever left out of it.
func (m *Drawer) label(v *view.View, l page.Label, c page.Container) (template.HTML, []float64) {
	key := v.Page.ID + "@" + c.Name
	if had, ok := m.drawn.LoadAndDelete(key); ok {
		had := had.(drawnLabel)
		for _, name := range had.symbols {
			v.Symbol(name)
		}
		return had.svg, had.size
	}
	fresh := *v
	fresh.Symbols = nil
	svg, size := pen{&fresh}.fitted(l, c)
	for _, name := range fresh.Symbols {
		v.Symbol(name)
	}
	m.drawn.Store(key, drawnLabel{svg, size, fresh.Symbols})
	return svg, size
}

// drawnLabel is a label that has been drawn.
type drawnLabel struct {
	svg     template.HTML
	size    []float64
	symbols []string
}

// pen draws what one view says.
type pen struct{ *view.View }

// Made is a label as it is drawn for one container.
type Made struct {
	SVG   template.HTML
	Holds page.Text
	Note  string // the size of its paper, and whether it is a tag
}

// All draws the page's label for every container, for a screen; in the
// bound binder for the first alone.
func (m *Drawer) All(v *view.View) []Made {
	l, _ := view.LabelOf(v.Page)
	face, ok := m.binder.Theme.Face("label")
	if !ok {
		return nil
	}
	var out []Made
	for _, c := range l.For {
		other := *v
		other.Face, other.Choice = face, view.Chosen(v.Page)
		other.Page = page.OnPaper(v.Page, other.Choice)
		svg, size := m.label(&other, l, c)
		v.Symbols = other.Symbols
		note := theme.Millimetres(size)
		if needsTag(c.Ml, size[0], size[1]) && strings.HasPrefix(v.Page.KindLine, "Bottle") {
			note += ", larger than the side of such a bottle: a tag to hang on it"
		}
		out = append(out, Made{svg, page.Say(page.F(c.Holds)), note})
		if v.Bound {
			break
		}
	}
	return out
}

// Path is the file of a page's label for one container.
func Path(f theme.Face, id string, c page.Container) string {
	return path.Join(f.Folder, c.Name, labelName(id)) + ".html"
}

// Holds says which bottle a label is for.
func Holds(c page.Container) string { return wording.Plain(page.Say(page.F(c.Holds)), -1) }
