package render

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/testdata/fixture"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// hard are cards that no paper has room for.
func hard() procedures.Binder {
	b := fixture.Binder()
	long := strings.TrimSpace(strings.Repeat("Sodium metabisulfite and sulfite ", 4))[:120]
	var made *figure.Record
	for _, f := range b.Figures {
		if f.ID == "film-developer.stock/made@1000ml" {
			made = f
		}
	}
	var steps page.Steps
	for i := range 60 {
		steps.Rows = append(steps.Rows, page.Step{ID: fmt.Sprintf("s%d", i), What: page.Say(page.N(fmt.Sprintf("piece-%d of sixty, stirred until it is clear", i))), Amount: page.Say(page.F(made)), Tick: true,
			Caution: []page.Text{page.Say(page.N(fmt.Sprintf("caution-%d: gloves", i)))}})
	}
	var clock page.Clock
	for i := range 60 {
		clock.Rows = append(clock.Rows, page.ClockRow{ID: fmt.Sprintf("c%d", i), At: page.Say(page.W("then")), Role: page.Wash, Word: page.Say(page.N(fmt.Sprintf("piece-%d", i))), Bath: page.Say(page.W("running water, turn the tank")),
			Caution: []page.Text{page.Say(page.N(fmt.Sprintf("caution-%d: do not shorten", i)))}})
	}
	table := page.Table{Caption: page.Say(page.W("Pairs")), Head: []page.Text{page.Say(page.W("this")), page.Say(page.W("that"))}}
	for i := range 400 {
		table.Rows = append(table.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(fmt.Sprintf("piece-%d", i)))}, {Text: page.Say(page.W("never meets the other"))}}})
	}
	gear := page.Gear{Items: []page.GearItem{{Sign: "M009", Word: "gloves"}, {Sign: "M004", Word: "goggles"}}}
	never := []page.Block{page.List{Items: []page.Text{page.Say(page.W("pour it away"))}}}
	foot := page.Foot{Version: "1", Date: "2026-01-10"}
	b.Pages = append(b.Pages,
		page.Page{ID: "mix/sixty", Kind: "mixing", KindLine: "Mixing card", Title: long, Before: []page.Block{gear}, Do: []page.Block{steps}, Never: never, Foot: foot},
		page.Page{ID: "process/sixty", Kind: "process", KindLine: "Process card", Title: "Sixty steps", Before: []page.Block{gear}, Do: []page.Block{clock}, Never: never, Foot: foot},
		page.Page{ID: "board/rows", Kind: "board", KindLine: "Board", Title: "Four hundred rows", Before: []page.Block{gear}, Do: []page.Block{table}, Never: never, Foot: foot},
		page.Page{ID: "mix/unbroken", Kind: "mixing", KindLine: "Mixing card", Title: strings.Repeat("x", 120), Before: []page.Block{gear}, Do: []page.Block{page.Steps{Rows: steps.Rows[:1]}}, Never: never, Foot: foot},
	)
	b.Prints = nil
	for _, id := range []string{"mix/sixty", "process/sixty", "board/rows", "mix/unbroken"} {
		b.Prints = append(b.Prints, page.Print{Page: id, Choice: -1, Variant: strings.ReplaceAll(id, "/", "-"), Faces: []string{"wall-a4"}})
	}
	return b
}

var pieceRule = regexp.MustCompile(`(?:piece|caution)-\d+`)

// TestHard cuts cards of sixty steps and of four hundred rows: every piece stands
// on exactly one sheet, in order, and every sheet has a head, a never and a foot.
func TestHard(t *testing.T) {
	for _, lab := range []string{"An invented darkroom", ""} {
		for _, name := range paperFaces {
			b := hard()
			b.Lab = lab
			s, fitted := placed(t, onPaper(b, name))
			if len(fitted) < 3 {
				t.Errorf("%s: %d cards do not fit, and it should be three at least", name, len(fitted))
			}
			for i := range s.prints {
				pr := &s.prints[i]
				v := s.on(s.binder.View(pr.page, pr.face, pr.choice), pr.path)
				html, err := s.sheets(v, pr)
				if err != nil {
					t.Fatal(err)
				}
				var want []string
				for k := range map[string]int{"mix/sixty": 60, "process/sixty": 60, "board/rows": 400, "mix/unbroken": 1}[pr.page.ID] {
					if pr.page.ID != "board/rows" {
						want = append(want, fmt.Sprintf("caution-%d", k))
					}
					want = append(want, fmt.Sprintf("piece-%d", k))
				}
				got := pieceRule.FindAllString(string(html), -1)
				slices.Sort(want)
				slices.Sort(got)
				if !slices.Equal(got, want) {
					t.Errorf("%s on %s: %d pieces, not %d", pr.page.ID, name, len(got), len(want))
				}
				for what, mark := range map[string]string{"head": `<h1`, "never": "pour it away", "gear": "goggles", "foot": `class="foot"`} {
					if n := strings.Count(string(html), mark); n != len(pr.sheets) {
						t.Errorf("%s on %s: %d of %s on %d sheets", pr.page.ID, name, n, what, len(pr.sheets))
					}
				}
				if n := strings.Count(string(html), fmt.Sprintf(" of %d", len(pr.sheets))); len(pr.sheets) > 1 && n != len(pr.sheets) {
					t.Errorf("%s on %s: %d of %d sheets say which they are", pr.page.ID, name, n, len(pr.sheets))
				}
				if n := strings.Count(string(html), "continues on card"); n != len(pr.sheets)-1 {
					t.Errorf("%s on %s: %d of %d sheets say that they go on", pr.page.ID, name, n, len(pr.sheets))
				}
			}
		}
	}
}

// TestWornOnEverySheet: every sheet of every card of the demonstration says once
// what to wear, if its card does.
func TestWornOnEverySheet(t *testing.T) {
	demo, err := demonstrationOnce()
	if err != nil {
		t.Fatal(err)
	}
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
		s, _ := placed(t, onPaper(demo, name))
		for _, pr := range s.prints {
			for i, sheet := range pr.sheets {
				got, want := worn(sheet), worn(pr.page)
				aid := i == 0 // a first sheet of first aid alone, without a row of wiping up
				for _, b := range sheet.Do {
					s, ok := b.(page.Steps)
					aid = aid && ok && s.Cases && !slices.ContainsFunc(s.Rows, func(r page.Step) bool { return r.ID == "small" || r.ID == "powder" })
				}
				if got != want && !aid && len(sheet.Do)+len(sheet.Tables) > 0 || got > 1 {
					t.Errorf("%s on %s, sheet %d: says %d times what to wear", pr.page.ID, name, i+1, got)
				}
			}
		}
	}
}

// TestEyesFirst: whoever takes up the first card of an accident finds on it what to
// do for the eyes; an index card is too small for that.
func TestEyesFirst(t *testing.T) {
	demo, err := demonstrationOnce()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range paperFaces {
		if name == "index" {
			continue
		}
		s, _ := placed(t, onPaper(demo, name))
		found := 0
		for i := range s.prints {
			pr := &s.prints[i]
			if pr.page.Kind != "spill" && pr.page.ID != Emergency {
				continue
			}
			found++
			html, err := s.on(s.binder.View(pr.sheets[0], pr.face, pr.choice), pr.path).blocks("do", pr.sheets[0].Do)
			if err != nil || !strings.Contains(string(html), `data-step="eyes"`) {
				t.Errorf("%s on %s: the first card does not say what to do for the eyes (%v)", pr.page.ID, name, err)
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
	html, err := s.sheets(s.on(s.binder.View(pr.page, pr.face, pr.choice), pr.path), pr)
	if err != nil || !strings.Contains(string(html), "at-last") {
		t.Errorf("the long step is not whole (%v)", err)
	}
}

// TestStepNumbers: a step keeps its number on a following sheet.
func TestStepNumbers(t *testing.T) {
	s, _ := placed(t, onPaper(hard(), "wall-a5"))
	pr := &s.prints[0]
	if len(pr.sheets) < 2 {
		t.Fatal("sixty steps on one sheet")
	}
	html, err := s.sheets(s.on(s.binder.View(pr.page, pr.face, pr.choice), pr.path), pr)
	if err != nil {
		t.Fatal(err)
	}
	if want := fmt.Sprintf(`data-n="%d"`, pr.steps[1]+1); !strings.Contains(string(html), want) || !strings.Contains(string(html), `data-n="60"`) {
		t.Errorf("no step with %s, or none with the last number", want)
	}
}

// TestLargerPaper: what does not fit goes to the next larger paper that the lab
// prints on, and is not made twice.
func TestLargerPaper(t *testing.T) {
	b := hard()
	b.Prints = []page.Print{{Page: "mix/film-developer", Choice: 1, Variant: "film-developer.stock+1000ml", Faces: []string{"index", "wall-a5", "wall-a6"}}}
	s, fitted := placed(t, b)
	if len(fitted) != 2 || fitted[0].Paper != "index" || fitted[0].To != "a5" || fitted[1].To != "a5" || fitted[0].Over <= 0 {
		t.Errorf("what was done: %+v", fitted)
	}
	var made []string
	for _, pr := range s.prints {
		made = append(made, pr.path)
	}
	if got, want := strings.Join(made, " "), "wall/a5/film-developer.stock+1000ml.html"; got != want {
		t.Errorf("made %s", got)
	}
	b.Prints[0].Faces = []string{"index"}
	s, fitted = placed(t, b)
	if len(fitted) != 1 || fitted[0].To != "" || fitted[0].Sheets != len(s.prints[0].sheets) || fitted[0].Sheets < 2 {
		t.Errorf("without a larger paper: %+v", fitted)
	}
}

// TestFinish: a free side for holes, an outline inside the trim, colour only on
// request; cards keep to what is left.
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
		s, _ := placed(t, b)
		for _, name := range paperFaces {
			f, _ := s.paper.face(name)
			if c.paper.Punch && f.Margin[3] < 20 {
				t.Errorf("%s: %g mm for the holes", name, f.Margin[3])
			}
			if c.paper.Laminate && slices.Min(f.Margin) < 6 {
				t.Errorf("%s: %g mm inside the trim", name, slices.Min(f.Margin))
			}
		}
		// Labels are not finished.
		if f, _ := s.paper.face("binder"); f.Margin[3] != 20 || f.Margin[1] != 12 {
			t.Errorf("the binder's margins changed: %v", f.Margin)
		}
	}
}
