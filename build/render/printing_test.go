package render

import (
	"maps"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"wetside/build/render/screen"
	"wetside/build/render/view"
	"wetside/build/render/wording"
	"wetside/procedures/page"
	"wetside/testdata/browser"
)

// mustPrint is what a page says first and what nobody may miss: each stands in one line of
// the print, its words in their order from the left.
func mustPrint(v *view.View) (lines []*regexp.Regexp) {
	p := v.Whole
	line := func(words ...string) {
		for i, w := range words {
			words[i] = strings.ReplaceAll(regexp.QuoteMeta(strings.Join(strings.Fields(w), " ")), " ", `\s+`)
		}
		lines = append(lines, regexp.MustCompile(`(?m)`+strings.Join(words, `[^\n]*\s`)))
	}
	firstWords := func(t page.Text, n int) string {
		words := strings.Fields(v.Words(t))
		return strings.Join(words[:min(n, len(words))], " ")
	}
	line(p.Title)
	for _, b := range p.Do {
		switch b := b.(type) {
		case page.Clock:
			line(firstShown(v, b.Rows[0].At))
		case page.Steps:
			for i, r := range b.Rows {
				if b.Cases && len(r.Part) > 0 { // the part of the body, and beside it what to do
					line(firstWords(r.Part, 1), firstWords(r.What, 3))
				} else if i == 0 && len(r.Amount) > 0 {
					line(firstShown(v, r.Amount))
				}
			}
		}
	}
	for _, b := range p.Never {
		if l, ok := b.(page.List); ok && len(l.Items) > 0 {
			line("NEVER")
			line(firstWords(l.Items[0], 3))
			break
		}
	}
	return lines
}

// firstShown is the first figure of a text as it is shown, or its words.
func firstShown(v *view.View, t page.Text) string {
	for _, in := range t {
		if in.Kind == page.Fig || in.Kind == page.BareFig {
			return wording.Shown(wording.Pick(in.Figures, max(v.Choice, 0)), true)
		}
	}
	return v.Words(t)
}

// TestPrintAnywhere prints one page of every kind as the first page that a browser ever
// sees: with nothing loaded before, its words stand on the paper at the first try, what is
// said beside something still beside it.
func TestPrintAnywhere(t *testing.T) {
	demo, served := demonstrationSite(t)
	home := serve(t, served)
	late := lateFonts(t, home)
	s := siteFor(t, demo)
	face, _ := s.paper.Face("screen")
	smallest := map[string]page.Page{} // of each kind, and the sheet for emergencies
	for p := range demo.All() {
		kind := p.Kind
		if p.ID == screen.Emergency {
			kind = screen.Emergency
		}
		if was, ok := smallest[kind]; !ok || len(served[p.ID+".html"]) < len(served[was.ID+".html"]) {
			smallest[kind] = p
		}
	}
	firstAid := 0
	for _, p := range smallest {
		from := home
		if p.ID == screen.Emergency { // its words stand there even if the fonts for paper never come
			from = late
		}
		want := mustPrint(s.binder.View(p, face, view.Chosen(p)))
		text := strings.Join(printedPages(t, printedFresh(t, from+p.ID+".html")), "\n")
		for _, line := range want {
			if !line.MatchString(text) {
				t.Errorf("%s is printed without %q", p.ID, line)
			}
		}
		if p.ID == screen.Emergency {
			firstAid = len(want)
		}
	}
	if len(smallest) < 15 || firstAid < 6 {
		t.Errorf("%d kinds, and %d lines of first aid", len(smallest), firstAid)
	}
}

// lateFonts serves a site whose fonts never come.
func lateFonts(t *testing.T, home string) string {
	t.Helper()
	to, err := url.Parse(home)
	if err != nil {
		t.Fatal(err)
	}
	over := make(chan struct{})
	site := httputil.NewSingleHostReverseProxy(to)
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if path.Ext(r.URL.Path) == ".woff2" {
			select {
			case <-over:
			case <-r.Context().Done():
			}
			return
		}
		site.ServeHTTP(w, r)
	}))
	t.Cleanup(srv.Close)
	t.Cleanup(func() { close(over) })
	return srv.URL + "/"
}

// printedFresh opens a page in a browser that has seen none and prints it at once.
func printedFresh(t *testing.T, address string) (pdf []byte) {
	t.Helper()
	t.Run(path.Base(address), func(t *testing.T) {
		ctx := browser.Open(t)
		if err := chromedp.Do(ctx, chromedp.Navigate(address)); err != nil {
			t.Fatal(err)
		}
		var err error
		if pdf, err = chromedp.Run(ctx, onlyPaper()); err != nil {
			t.Fatal(err)
		}
	})
	return pdf
}

// TestPrintsOnAPhone opens one print of each size on a telephone: it is no wider than the
// screen, and a link that a finger finds leads back to its page.
func TestPrintsOnAPhone(t *testing.T) {
	_, served := demonstrationSite(t)
	fixed := render(t, Options{Minify: true})
	ctx := browser.Open(t)
	home, small := serve(t, served), serve(t, fixed)
	looked := map[string]bool{}
	check := func(home string, files map[string][]byte, name string) {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(390, 844), chromedp.Navigate(home+name)); err != nil {
			t.Fatal(err)
		}
		const state = `(()=>{
			const d=document.documentElement, a=document.querySelector(".back a"), r=a&&a.getBoundingClientRect();
			const ends=[...document.querySelectorAll(".sheet,.drawn")].map(e=>e.getBoundingClientRect().right);
			return [String(d.scrollWidth-d.clientWidth), a?new URL(a.href).pathname.slice(1):"",
				r&&r.height>=44&&r.right<=390?"":"small", String(Math.round(Math.max(...ends)))]})()`
		got, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](state))
		if err != nil {
			t.Fatal(err)
		}
		if got[0] != "0" || len(got[3]) > 3 || got[3] > "390" {
			t.Errorf("%s is %s px too wide for a phone, and its sheet ends at %s px", name, got[0], got[3])
		}
		if files[got[1]] == nil || got[1] == name || got[2] != "" {
			t.Errorf("%s: the way back leads to %q %s", name, got[1], got[2])
		}
	}
	for _, name := range slices.Sorted(maps.Keys(served)) {
		folder := path.Dir(name)
		sheet := name == "label/sheet.html"
		print := sheet || strings.HasPrefix(folder, "wall/") || strings.HasPrefix(folder, "label/")
		if path.Ext(name) != ".html" || !print || looked[folder] && !sheet {
			continue
		}
		looked[folder] = true
		check(home, served, name)
	}
	if len(looked) < 8 {
		t.Errorf("%d sizes of prints", len(looked))
	}
	check(small, fixed, "binder.html")
}
