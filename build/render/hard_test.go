package render

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/screen"
	"wetside/build/render/testdata/fixture"
	"wetside/procedures/page"
)

var pieceRule = regexp.MustCompile(`(?:piece|caution)-\d+`)

// TestHard cuts cards of sixty steps and of four hundred rows: every piece stands
// on exactly one sheet, in order, and every sheet has a head, a never and a foot.
func TestHard(t *testing.T) {
	for _, lab := range []string{"An invented darkroom", ""} {
		for _, name := range paperFaces {
			b := fixture.Hard()
			b.Lab = lab
			s, fitted := placed(t, onPaper(b, name))
			if len(fitted) < 3 {
				t.Errorf("%s: %d cards do not fit, and it should be three at least", name, len(fitted))
			}
			for i := range s.prints {
				pr := &s.prints[i]
				html, err := s.pages.Body(s.binder.View(pr.Page, pr.Face, pr.Choice), pr.Path, "", pr)
				if err != nil {
					t.Fatal(err)
				}
				var want []string
				for k := range map[string]int{"mix/sixty": 60, "process/sixty": 60, "board/rows": 400, "mix/unbroken": 1}[pr.Page.ID] {
					if pr.Page.ID != "board/rows" {
						want = append(want, fmt.Sprintf("caution-%d", k))
					}
					want = append(want, fmt.Sprintf("piece-%d", k))
				}
				got := pieceRule.FindAllString(string(html), -1)
				slices.Sort(want)
				slices.Sort(got)
				if !slices.Equal(got, want) {
					t.Errorf("%s on %s: %d pieces, not %d", pr.Page.ID, name, len(got), len(want))
				}
				for what, mark := range map[string]string{"head": `<h1`, "never": "pour it away", "gear": "goggles", "foot": `class="foot"`} {
					if n := strings.Count(string(html), mark); n != len(pr.Sheets) {
						t.Errorf("%s on %s: %d of %s on %d sheets", pr.Page.ID, name, n, what, len(pr.Sheets))
					}
				}
				if n := strings.Count(string(html), fmt.Sprintf(" of %d", len(pr.Sheets))); len(pr.Sheets) > 1 && n != len(pr.Sheets) {
					t.Errorf("%s on %s: %d of %d sheets say which they are", pr.Page.ID, name, n, len(pr.Sheets))
				}
				if n := strings.Count(string(html), "continues on card"); n != len(pr.Sheets)-1 {
					t.Errorf("%s on %s: %d of %d sheets say that they go on", pr.Page.ID, name, n, len(pr.Sheets))
				}
			}
		}
	}
}

// TestWornOnEverySheet: every sheet of every card of the demonstration says once
// what to wear, if its card does.
func TestWornOnEverySheet(t *testing.T) {
	worn := func(p page.Page) (n int) {
		for _, b := range p.Before {
			switch b := b.(type) {
			case page.Gear:
				n++
			case page.Para:
				if len(b.Text) > 0 && b.Text[0].Text == "Wear" {
					n++
				}
			}
		}
		return n
	}
	for _, name := range paperFaces {
		s := demonstrationOn(t, name)
		for _, pr := range s.prints {
			for i, sheet := range pr.Sheets {
				got, want := worn(sheet), worn(pr.Page)
				aid := i == 0 // a first sheet of first aid alone, without a row of wiping up
				for _, b := range sheet.Do {
					s, ok := b.(page.Steps)
					aid = aid && ok && s.Cases && !slices.ContainsFunc(s.Rows, func(r page.Step) bool { return r.ID == "small" || r.ID == "powder" })
				}
				if got != want && !aid && len(sheet.Do)+len(sheet.Tables) > 0 || got > 1 {
					t.Errorf("%s on %s, sheet %d: says %d times what to wear", pr.Page.ID, name, i+1, got)
				}
			}
		}
	}
}

// TestEyesFirst: whoever takes up the first card of an accident finds on it what to
// do for the eyes; an index card is too small for that.
func TestEyesFirst(t *testing.T) {
	for _, name := range paperFaces {
		if name == "index" {
			continue
		}
		s := demonstrationOn(t, name)
		found := 0
		for i := range s.prints {
			pr := &s.prints[i]
			if pr.Page.Kind != "spill" && pr.Page.ID != screen.Emergency {
				continue
			}
			found++
			html, err := s.pages.Body(s.binder.View(pr.Sheets[0], pr.Face, pr.Choice), pr.Path, "", nil)
			if err != nil || !strings.Contains(string(html), `data-step="eyes"`) {
				t.Errorf("%s on %s: the first card does not say what to do for the eyes (%v)", pr.Page.ID, name, err)
			}
		}
		if found < 30 {
			t.Errorf("%s: %d cards of first aid", name, found)
		}
	}
}

// TestNeverIsSaid: no line of what must never be done reads as an order, on any face, and
// none says it twice: on a screen each stands on a line of its own below the word, on
// paper each says it itself.
func TestNeverIsSaid(t *testing.T) {
	b := fixture.Binder()
	for i := range b.Pages {
		if len(b.Pages[i].Never) > 0 {
			b.Pages[i].Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("do-one")), page.Say(page.W("do-two"))}}}
		}
	}
	files, err := Site(b, fixture.Theme(t), Options{})
	if err != nil {
		t.Fatal(err)
	}
	tags := regexp.MustCompile(`<[^>]*>`)
	found := 0
	for _, f := range files {
		if !strings.HasSuffix(f.Path, ".html") {
			continue
		}
		said := string(tags.ReplaceAll(f.Bytes, nil))
		if bytes.Contains(f.Bytes, []byte(`face-screen`)) {
			if bytes.Contains(f.Bytes, []byte("do-two")) {
				found++
				for _, line := range regexp.MustCompile(`<li>[^<]*do-(one|two)`).FindAllString(string(f.Bytes), -1) {
					require.NotContains(t, strings.ToLower(line), "never", f.Path)
				}
				require.Regexp(t, `(?s)<h2 class="?never-word"?>Never</h2>.{0,80}do-one.{0,40}do-two`, string(f.Bytes), f.Path)
			}
			continue
		}
		require.NotContains(t, strings.ToLower(said), "never never", f.Path)
		for at := strings.Index(said, "do-two"); at >= 0; {
			found++
			if before := strings.ToLower(said[max(0, at-6):at]); before != "never " {
				t.Errorf("%s: %q before what is never done", f.Path, before)
			}
			next := strings.Index(said[at+1:], "do-two")
			if next < 0 {
				break
			}
			at += 1 + next
		}
	}
	if found < 20 {
		t.Errorf("%d lines found", found)
	}
}

// TestHigherThanASheet: a step that no sheet holds is kept whole, and said to be
// broken by the printer.
func TestHigherThanASheet(t *testing.T) {
	b := fixture.Binder()
	long := strings.TrimSpace(strings.Repeat("stirred until it is clear ", 60)) + " at-last"
	b.Pages = append(b.Pages, page.Page{ID: "mix/long", Kind: "mixing", KindLine: "Mixing card", Title: "Long", Foot: page.Foot{Version: "1"},
		Do:    []page.Block{page.Steps{Rows: []page.Step{{ID: "short", What: page.Say(page.N("a short one"))}, {ID: "long", What: page.Say(page.N(long))}}}},
		Never: []page.Block{page.List{Items: []page.Text{page.Say(page.W("pour it away"))}}}})
	b.Prints = []page.Print{{Page: "mix/long", Choice: -1, Variant: "long", Faces: []string{"index"}}}
	s, fitted := placed(t, b)
	if len(fitted) != 1 || !fitted[0].Broken || fitted[0].Sheets < 2 {
		t.Fatalf("what was done: %+v", fitted)
	}
	pr := &s.prints[0]
	html, err := s.pages.Body(s.binder.View(pr.Page, pr.Face, pr.Choice), pr.Path, "", pr)
	if err != nil || !strings.Contains(string(html), "at-last") {
		t.Errorf("the long step is not whole (%v)", err)
	}
}

// TestStepNumbers: a step keeps its number on a following sheet.
func TestStepNumbers(t *testing.T) {
	s, _ := placed(t, onPaper(fixture.Hard(), "wall-a5"))
	pr := &s.prints[0]
	if len(pr.Sheets) < 2 {
		t.Fatal("sixty steps on one sheet")
	}
	html, err := s.pages.Body(s.binder.View(pr.Page, pr.Face, pr.Choice), pr.Path, "", pr)
	if err != nil {
		t.Fatal(err)
	}
	if want := fmt.Sprintf(`data-n="%d"`, pr.Steps[1]+1); !strings.Contains(string(html), want) || !strings.Contains(string(html), `data-n="60"`) {
		t.Errorf("no step with %s, or none with the last number", want)
	}
}

// TestFinish: an outline inside the trim of what is laminated, colour only on request.
func TestFinish(t *testing.T) {
	for _, c := range []struct {
		paper page.Paper
		want  []string
		not   []string
	}{
		{page.Paper{}, nil, []string{`class="trim"`, "press colour"}},
		{page.Paper{Punch: true}, nil, []string{`class="trim"`}},
		{page.Paper{Laminate: true}, []string{`class="trim"`}, nil},
		{page.Paper{Colour: true}, []string{"press colour"}, nil},
	} {
		b := fixture.Binder()
		b.Paper = c.paper
		files, err := Site(b, fixture.Theme(t), Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			if f.Path != "wall/a4/film-negative+film-400.double.html" {
				continue
			}
			for _, w := range c.want {
				if !strings.Contains(string(f.Bytes), w) {
					t.Errorf("%+v: no %s", c.paper, w)
				}
			}
			for _, w := range c.not {
				if strings.Contains(string(f.Bytes), w) {
					t.Errorf("%+v: %s", c.paper, w)
				}
			}
		}
	}
}
