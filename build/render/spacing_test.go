package render

import (
	"reflect"
	"slices"
	"testing"

	"wetside/build/render/paper"
	"wetside/build/render/testdata/fixture"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// TestSpacingIsReckoned: the estimate reads every number of the theme's spacing, so that none is
// changed in the stylesheet alone: with another number some card of the demonstration is reckoned
// otherwise, or the binder is laid out otherwise.
func TestSpacingIsReckoned(t *testing.T) {
	type card struct {
		v     *view.View
		scale float64
		high  float64
	}
	var cards []card
	add := func(v *view.View, scale float64) { cards = append(cards, card{v, scale, paper.Height(v, scale)}) }
	for _, name := range []string{"wall-a4", "wall-a5", "wall-a6", "index"} {
		s := demonstrationOn(t, name)
		for _, pr := range s.prints {
			for k, p := range pr.Sheets {
				v := s.binder.View(p, pr.Face, pr.Choice)
				v.Close, v.Tight = pr.Close, pr.Tight
				if len(pr.Sheets) > 1 {
					v.Cut, v.Cuts = k+1, len(pr.Sheets)
				}
				add(v, pr.Face.Scales(pr.Page.ID)[pr.Scale])
			}
		}
	}
	bound, _ := demonstrationBound(t)
	index, _ := bound.paper.Face("index") // too small for many of them, and it sets a clock in a way of its own
	for p := range bound.binder.All() {
		if p.Kind == "process" {
			add(bound.binder.View(p, index, 0), 1)
		}
	}
	for _, l := range bound.bound.Leaves {
		for _, v := range l.Pieces {
			add(v, 1)
		}
	}
	asking := page.Discs{Pieces: []page.Piece{{Word: "gloves", Mark: "gloves"}}, Rows: []page.DiscRow{{
		Names: []page.DiscName{{Text: page.Say(page.N("fixer"))}}, Ask: page.Say(page.W("ask first")),
		Cells: []page.Disc{{}},
	}}}
	add(bound.binder.View(page.Page{ID: "asking", Kind: "protect", Do: []page.Block{asking}}, cards[0].v.Face, 0), 1)
	// Sheets so small that a short binder takes many of them, and its contents several columns.
	laidWith := func(spacing *theme.Spacing) (size []int) {
		s := siteFor(t, fixture.Hard())
		face, _ := s.paper.Face("binder")
		face.Spacing, face.Size = spacing, []float64{face.Size[0], 110}
		laid := s.paper.Bind(face)
		for _, sheet := range laid.Contents {
			for _, column := range sheet {
				size = append(size, len(column))
			}
		}
		for _, l := range laid.Leaves {
			size = append(size, len(l.Pieces))
		}
		return size
	}
	standard := *fixture.Theme(t).Spacing
	laid := laidWith(&standard)
	spacing := reflect.ValueOf(standard)
	for i := range spacing.NumField() {
		table := spacing.Type().Field(i).Tag.Get("toml")
		if table == "room" { // TestSpacedRoom
			continue
		}
		for k := range spacing.Field(i).NumField() {
			name := spacing.Field(i).Type().Field(k).Tag.Get("toml")
			changed := func(by func(float64) float64) *theme.Spacing {
				other := reflect.New(spacing.Type()).Elem()
				other.Set(spacing)
				if field := other.Field(i).Field(k); field.Kind() == reflect.Float64 {
					field.SetFloat(by(field.Float()))
				} else {
					field.Set(reflect.ValueOf(slices.Repeat([]float64{by(1)}, field.Len())))
				}
				s := other.Interface().(theme.Spacing)
				return &s
			}
			more, less := changed(func(x float64) float64 { return x*6 + 9 }), changed(func(x float64) float64 { return x * .3 })
			if !slices.ContainsFunc(cards, func(c card) bool {
				return slices.ContainsFunc([]*theme.Spacing{more, less}, func(other *theme.Spacing) bool {
					v := *c.v
					v.Face.Spacing = other
					return paper.Height(&v, c.scale) != c.high
				})
			}) && slices.Equal(laid, laidWith(more)) && slices.Equal(laid, laidWith(less)) {
				t.Errorf("the estimate does not read %s.%s", table, name)
			}
		}
	}
}
