package render

import (
	"context"
	"fmt"
	"html/template"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"wetside/build/render/paper"
	"wetside/build/render/testdata/fixture"
	"wetside/build/theme"
	"wetside/procedures"
	"wetside/procedures/page"
	"wetside/testdata/browser"
)

// boundOf lays out and renders the binder of a lab.
func boundOf(t *testing.T, b procedures.Binder) (*site, map[string][]byte) {
	t.Helper()
	s, _ := placed(t, b)
	assets, err := s.assets()
	if err != nil {
		t.Fatal(err)
	}
	face, _ := s.paper.Face("binder")
	leaves := slices.Clone(s.bound.Leaves) // what stands on them is let go while they are rendered
	pieces, err := s.wholeBinder(face, "binder.html")
	if err != nil {
		t.Fatal(err)
	}
	s.bound.Leaves = leaves
	files := map[string][]byte{"binder.html": slices.Concat(pieces...)}
	for _, f := range assets {
		files[f.Path] = f.Bytes
	}
	return s, files
}

// demonstrationBound is the demonstration's binder, laid out and rendered once.
func demonstrationBound(t *testing.T) (*site, map[string][]byte) {
	t.Helper()
	if demonstrationBinder.site == nil {
		demo, err := demonstrationOnce()
		if err != nil {
			t.Fatal(err)
		}
		demonstrationBinder.site, demonstrationBinder.files = boundOf(t, demo)
	}
	return demonstrationBinder.site, demonstrationBinder.files
}

var demonstrationBinder struct {
	site  *site
	files map[string][]byte
}

// listed are the lines of the list of contents that name cards.
func (s *site) listed() (all []paper.Entry) {
	for _, sheet := range s.bound.Contents {
		for _, column := range sheet {
			for _, e := range column {
				if !e.Chapter {
					all = append(all, e)
				}
			}
		}
	}
	return all
}

// printedPages is the text of each page of a printed file.
func printedPages(t *testing.T, pdf []byte) []string {
	t.Helper()
	reader := browser.Program(t, "pdftotext")
	name := filepath.Join(t.TempDir(), "print.pdf")
	if err := os.WriteFile(name, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(reader, "-layout", name, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
}

// TestBinderSheets prints the binder of the demonstration: it has as many sheets as were
// planned, each card stands where the list of contents says, and few sheets are nearly
// empty. In the binders of other labs no sheet is fuller than paper.
func TestBinderSheets(t *testing.T) {
	ctx := browser.Open(t)
	s, files := demonstrationBound(t)
	sheetsHold(t, ctx, s, files, "the demonstration")
	pdf, err := chromedp.Run(ctx, onlyPaper())
	if err != nil {
		t.Fatal(err)
	}
	picture(t, "binder.pdf", pdf)
	pages := printedPages(t, pdf)
	if planned := len(s.bound.Contents) + len(s.bound.Leaves); len(pages) != planned || planned > 160 {
		t.Errorf("%d sheets are printed, %d were planned, and 160 are the most", len(pages), planned)
	}
	nearly := 0
	for i, text := range pages {
		lines := 0
		for line := range strings.Lines(text) {
			if strings.TrimSpace(line) != "" {
				lines++
			}
		}
		if lines < 9 {
			nearly++
		}
		if number := fmt.Sprintf("%d / %d", i+1, len(pages)); !strings.Contains(text, number) {
			t.Errorf("sheet %d does not bear its number", i+1)
		}
	}
	if nearly > 5 {
		t.Errorf("%d sheets hold less than nine lines", nearly)
	}
	// The first sheet that bears a card's fingerprint is the one on which it begins.
	first := map[string]int{}
	for _, l := range s.bound.Leaves {
		for _, v := range l.Pieces {
			finger := v.Fingerprint()
			if _, seen := first[v.Page.ID]; seen || v.Shared || !v.Controlled() {
				continue
			}
			first[v.Page.ID] = slices.IndexFunc(pages, func(text string) bool { return strings.Contains(text, finger) }) + 1
		}
	}
	entries := s.listed()
	for _, v := range s.paper.Cards(s.faceNamed(t, "binder")) {
		i := slices.IndexFunc(entries, func(e paper.Entry) bool { return e.Anchor == "p-"+v.Slug() })
		if i < 0 || entries[i].Sheet != first[v.Page.ID] {
			t.Errorf("%s: the list of contents does not say sheet %d", v.Page.ID, first[v.Page.ID])
		}
	}
	if len(entries) < 180 {
		t.Errorf("%d cards in the list of contents", len(entries))
	}
	for _, want := range []string{"Not bound in", "labels", "mixing records"} {
		if !strings.Contains(strings.Join(strings.Fields(pages[0]), " "), want) {
			t.Errorf("the first sheet does not say %q", want)
		}
	}
	labs, err := filepath.Glob("../../testdata/labs/*/lab.toml")
	if err != nil || len(labs) < 3 {
		t.Fatalf("%d labs (%v)", len(labs), err)
	}
	for _, name := range labs {
		b, err := binderOf(os.DirFS(filepath.Dir(name)))
		if err != nil {
			t.Fatal(err)
		}
		s, files := boundOf(t, b)
		sheetsHold(t, ctx, s, files, name)
	}
}

func (s *site) faceNamed(t *testing.T, name string) theme.Face {
	t.Helper()
	f, ok := s.paper.Face(name)
	if !ok {
		t.Fatalf("there is no face %s", name)
	}
	return f
}

// sheetsHold opens a binder as it is printed: no card is higher than it was reckoned, nor
// much lower, and no sheet is fuller than paper.
func sheetsHold(t *testing.T, ctx context.Context, s *site, files map[string][]byte, name string) {
	t.Helper()
	home := serve(t, files)
	emulatePrint(t, ctx)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(820, 1100), chromedp.Navigate(home+"binder.html")); err != nil {
		t.Fatal(err)
	}
	const high = `document.fonts.ready.then(()=>[...document.querySelectorAll(".leaf")].map(l=>
		[l,...l.querySelectorAll(".sheet")].map(e=>e.getBoundingClientRect().height/96*25.4)))`
	got, err := chromedp.Run(ctx, chromedp.Evaluate[[][]float64](high, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	room := paper.Room(s.faceNamed(t, "binder"))
	for i, sheet := range got {
		if sheet[0] > room {
			t.Errorf("%s: sheet %d holds %.1f mm, and paper %.1f mm", name, i+1, sheet[0], room)
		}
	}
	got = got[len(s.bound.Contents):]
	if len(got) != len(s.bound.Leaves) {
		t.Fatalf("%s: %d sheets, not %d", name, len(got), len(s.bound.Leaves))
	}
	for i, l := range s.bound.Leaves {
		for k, v := range l.Pieces {
			if want, is := paper.Height(v, v.Face.Scales(v.Page.ID)[v.Scale]), got[i][k+1]; want < is-.5 || want > is+wasteOf(room) {
				t.Errorf("%s: %s on sheet %d: estimated %.1f mm, is %.1f mm", name, v.Page.ID, i+1, want, is)
			}
		}
	}
}

// TestBinderDropsNothing: what a card says before its work, in it and of what must never be
// done stands in the binder on the sheets of the card; only the reasons for what to wear are
// left to its own page.
func TestBinderDropsNothing(t *testing.T) {
	s, _ := demonstrationBound(t)
	said := map[string]string{} // by card
	for _, l := range s.bound.Leaves {
		var all strings.Builder
		for _, v := range l.Pieces {
			w := *v
			body, err := s.pages.Body(&w, "binder.html", "", nil)
			if err != nil {
				t.Fatal(err)
			}
			all.WriteString(plainWords(string(body)))
		}
		for _, v := range l.Pieces {
			said[v.Page.ID] += all.String()
		}
	}
	cards := 0
	for _, v := range s.paper.Cards(s.faceNamed(t, "binder")) {
		cards++
		p := page.Page{Never: v.Page.Never}
		for _, list := range [][]page.Block{v.Page.Before, v.Page.Do} {
			for _, b := range list {
				if g, ok := b.(page.Gear); ok {
					g.Items, g.Basis = slices.Clone(g.Items), nil
					for i := range g.Items {
						if !strings.Contains(said[v.Page.ID], plainWords(template.HTMLEscapeString(g.Items[i].Word))) {
							t.Errorf("%s does not say to wear %s", v.Page.ID, g.Items[i].Word)
						}
						g.Items[i].Why = nil
					}
					b = g
				}
				switch kind := b.(type) {
				case page.Temps: // half degrees stand on the screen
					continue
				case page.Discs: // its rows are said in lines, which need no name
					kind.Caption = nil
					b = kind
				case page.Ways:
					kind.Caption = nil
					b = kind
				}
				p.Do = append(p.Do, b)
			}
		}
		page.Inlines(p, func(in page.Inline) {
			if text := plainWords(template.HTMLEscapeString(in.Text)); !strings.Contains(said[v.Page.ID], text) {
				t.Errorf("%s does not say %q", v.Page.ID, text)
			}
		})
	}
	if cards < 180 {
		t.Errorf("%d cards", cards)
	}
}

var spaces = regexp.MustCompile(`[\s\x{a0}]+`)

// plainWords is a text without tags, with one space for each run of them.
func plainWords(html string) string {
	return spaces.ReplaceAllString(strings.ReplaceAll(tags.ReplaceAllString(html, ""), "&nbsp;", " "), " ")
}

// TestBinderCutsHardCards: of cards that no sheet holds, every piece stands in the binder
// once and in its order.
func TestBinderCutsHardCards(t *testing.T) {
	b := fixture.Hard()
	_, files := boundOf(t, b)
	html := string(files["binder.html"])
	got := map[string]int{}
	last := -1
	for _, piece := range pieceRule.FindAllString(html, -1) {
		got[piece]++
		var n int
		if _, err := fmt.Sscanf(piece, "piece-%d", &n); err == nil {
			if n != last+1 && n != 0 {
				t.Errorf("%s comes behind piece-%d", piece, last)
			}
			last = n
		}
	}
	for k := range 400 {
		want := 1 // the four hundred rows
		if k < 60 {
			want += 2
		}
		if k == 0 {
			want++
		}
		if n := got[fmt.Sprintf("piece-%d", k)]; n != want {
			t.Errorf("piece-%d stands %d times, not %d", k, n, want)
		}
	}
}
