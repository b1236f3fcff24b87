package render

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/network"
	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"wetside/build/render/labels"
	"wetside/build/render/paper"
	"wetside/build/render/testdata/fixture"
	"wetside/build/render/typeset"
	"wetside/testdata/browser"
)

func TestMain(m *testing.M) { os.Exit(browser.Run(m)) }

// serve serves rendered files.
func serve(t *testing.T, files map[string][]byte) string {
	t.Helper()
	kinds := map[string]string{".html": "text/html; charset=utf-8", ".css": "text/css", ".js": "text/javascript", ".woff2": "font/woff2"}
	srv := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		name := strings.TrimPrefix(r.URL.Path, "/")
		b, ok := files[name]
		switch {
		case name == "favicon.ico":
			w.WriteHeader(http.StatusNoContent)
			return
		case !ok:
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", kinds[path.Ext(name)])
		w.Header().Set("Content-Security-Policy", "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self'")
		w.Write(b)
	}))
	t.Cleanup(srv.Close)
	return srv.URL + "/"
}

// watch notes everything the page says or asks for that it should not.
func watch(t *testing.T, ctx context.Context, home string) func() []string {
	t.Helper()
	var mu sync.Mutex
	var seen []string
	note := func(s string) {
		mu.Lock()
		defer mu.Unlock()
		seen = append(seen, s)
	}
	err := chromedp.Listen(ctx, func(ev any) {
		switch e := ev.(type) {
		case *network.EventRequestWillBeSent:
			if !strings.HasPrefix(e.Request.URL, home) {
				note("request: " + e.Request.URL)
			}
		case *network.EventLoadingFailed:
			note("failed: " + e.ErrorText)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Call(ctx, network.Enable, network.EnableParams{}); err != nil {
		t.Fatal(err)
	}
	messages := chromedp.Console(ctx)
	go func() {
		for m, err := range messages {
			if err != nil {
				return
			}
			note("console: " + m.String())
		}
	}()
	return func() []string {
		mu.Lock()
		defer mu.Unlock()
		out := seen
		seen = nil
		return out
	}
}

// onlyPaper prints the page that is open as its style says, and leaves out the tags for screen
// readers: they take twice as long as the paper, and TestPaper holds that they change nothing on it.
func onlyPaper() chromedp.Action[[]byte] {
	return chromedp.PrintToPDF(chromedp.PDFPrintBackground(), chromedp.PDFPreferCSSPageSize(),
		func(p *cdppage.PrintToPDFParams) { tagged := false; p.GenerateTaggedPDF = &tagged })
}

// emulatePrint shows what is opened from now on as it is printed, so that it is laid out for paper at once.
func emulatePrint(t *testing.T, ctx context.Context) {
	t.Helper()
	if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
		t.Fatal(err)
	}
}

// picture keeps a picture for a person to look at, if one is asked for.
func picture(t *testing.T, name string, b []byte) {
	t.Helper()
	dir := os.Getenv("WETSIDE_PICTURES")
	if dir == "" {
		return
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, name), b, 0o644); err != nil {
		t.Fatal(err)
	}
}

func look(t *testing.T, ctx context.Context, name string) {
	t.Helper()
	if os.Getenv("WETSIDE_PICTURES") == "" {
		return
	}
	b, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
	if err != nil {
		t.Fatal(err)
	}
	picture(t, name+".png", b)
}

func TestScreen(t *testing.T) {
	files := render(t, Options{Minify: true})
	ctx := browser.Open(t)
	home := serve(t, files)
	complaints := watch(t, ctx, home)
	const overflow = `document.documentElement.scrollWidth - document.documentElement.clientWidth`
	const small = `[...document.querySelectorAll("nav a,.hurt,.choices label,.ground label,.tick,.links a,.prints a")].filter(e=>{const r=e.getBoundingClientRect();return r.width>0&&(r.height<43.9||r.width<24)}).map(e=>e.className+" "+e.textContent.trim()).join("; ")`
	const headings = `String(document.querySelectorAll("h1").length)`
	for _, card := range []string{"index", "mix/film-developer", "process/film-negative", "mix/stop", "board/notation", "board/emergency", "label/film-developer.stock", "mix/index", "why/film-developer.stock"} {
		for _, width := range []int64{320, 390, 1280} {
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 844), chromedp.Navigate(home+card+".html")); err != nil {
				t.Fatal(err)
			}
			over, err := chromedp.Run(ctx, chromedp.Evaluate[int](overflow))
			if err != nil {
				t.Fatal(err)
			}
			if over > 0 {
				t.Errorf("%s is %d px too wide at %d", card, over, width)
			}
			little, err := chromedp.Run(ctx, chromedp.Evaluate[string](small))
			if err != nil {
				t.Fatal(err)
			}
			if little != "" {
				t.Errorf("%s at %d: targets too small: %s", card, width, little)
			}
			if n, err := chromedp.Run(ctx, chromedp.Evaluate[string](headings)); err != nil || n != "1" {
				t.Errorf("%s has %s first headings (%v)", card, n, err)
			}
			look(t, ctx, "screen-"+strings.ReplaceAll(card, "/", "-")+"-"+strconv.FormatInt(width, 10))
			if width != 390 {
				continue
			}
			// Who has set the text of a phone to twice its size reads down, never to and fro.
			const twice = `document.documentElement.style.fontSize="200%",` + overflow
			if over, err := chromedp.Run(ctx, chromedp.Evaluate[int](twice)); err != nil || over > 0 {
				t.Errorf("%s is %d px too wide with its text at twice its size (%v)", card, over, err)
			}
		}
	}
	if got := complaints(); len(got) > 0 {
		t.Errorf("the browser complains: %s", strings.Join(got, "\n"))
	}
}

func TestGrounds(t *testing.T) {
	files := render(t, Options{Minify: true})
	ctx := browser.Open(t)
	home := serve(t, files)
	card := home + "mix/film-developer.html"
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(390, 844), chromedp.Navigate(card)); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.getElementById("ground-red").click(), true`)); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.Navigate(home+"process/film-negative.html")); err != nil {
		t.Fatal(err)
	}
	got, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.documentElement.dataset.ground+" "+document.getElementById("ground-red").checked+" "+getComputedStyle(document.body).color`))
	if err != nil {
		t.Fatal(err)
	}
	if got != "red true rgb(255, 0, 0)" {
		t.Errorf("the ground is not kept: %s", got)
	}
	look(t, ctx, "screen-red-390")
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.getElementById("ground-dark").click(), true`)); err != nil {
		t.Fatal(err)
	}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900), chromedp.Navigate(card)); err != nil {
		t.Fatal(err)
	}
	look(t, ctx, "screen-dark-1280")
}

// TestChoice picks another batch without any script of the page running.
func TestChoice(t *testing.T) {
	files := render(t, Options{Minify: true})
	ctx := browser.Open(t)
	home := serve(t, files)
	if err := chromedp.Do(ctx, chromedp.Navigate(home+"mix/film-developer.html")); err != nil {
		t.Fatal(err)
	}
	const shown = `[...document.querySelectorAll("[data-step=rest] .amt data")].filter(e=>e.offsetParent).map(e=>e.textContent).join(" ")`
	for i, want := range []string{"47.0", "94.0", "188.0"} {
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.getElementById("choice-`+strconv.Itoa(i)+`").click(), true`)); err != nil {
			t.Fatal(err)
		}
		got, err := chromedp.Run(ctx, chromedp.Evaluate[string](shown))
		if err != nil {
			t.Fatal(err)
		}
		if got != want {
			t.Errorf("batch %d shows %q, want %q", i, got, want)
		}
	}
}

var (
	countRule = regexp.MustCompile(`/Type\s*/Page\b`)
	boxRule   = regexp.MustCompile(`/MediaBox\s*\[\s*0 0 ([0-9.]+) ([0-9.]+)\s*\]`)
)

func TestPaper(t *testing.T) {
	files := render(t, Options{Minify: true})
	ctx := browser.Open(t)
	home := serve(t, files)
	complaints := watch(t, ctx, home)
	const clipped = `[...document.querySelectorAll(".sheet,.sheet .head,.sheet .step,.sheet .bath,.sheet .temps li,.sheet .amt,.sheet .at,.sheet .part,.drawing")].filter(e=>e.scrollWidth>e.clientWidth+1||(getComputedStyle(e).overflow!="visible"&&e.scrollHeight>e.clientHeight+1)).map(e=>e.className+" "+e.scrollWidth+">"+e.clientWidth).join("; ")`
	const outside = `(()=>{const s=document.querySelector(".drawn");if(!s)return"";const v=s.viewBox.baseVal;return[...s.querySelectorAll("text")].filter(t=>{const b=t.getBBox();return b.x<v.x-.1||b.x+b.width>v.x+v.width-1||b.y<-.1||b.y+b.height>v.height+.1}).map(t=>t.textContent).join("; ")})()`
	for _, c := range []struct {
		path          string
		width, height float64 // mm
	}{
		{"wall/a4/film-negative+film-400.double.html", 210, 297},
		{"wall/a5/film-negative+film-400.double.html", 148, 210},
		{"wall/a5/film-developer.stock+1000ml.html", 148, 210},
		{"wall/strip/film-negative+film-400.double.html", 70, 297},
		{"label/500ml/film-developer.stock.html", 74, 105},
		{"label/5000ml/film-developer.stock.html", 105, 148},
		{"binder.html", 210, 297},
	} {
		if files[c.path] == nil {
			t.Errorf("there is no %s", c.path)
			continue
		}
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(int64(c.width*96/25.4)+1, 1100), chromedp.Navigate(home+c.path)); err != nil {
			t.Fatal(err)
		}
		if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"}); err != nil {
			t.Fatal(err)
		}
		for _, check := range []string{clipped, outside} {
			got, err := chromedp.Run(ctx, chromedp.Evaluate[string](check))
			if err != nil {
				t.Fatal(err)
			}
			if got != "" {
				t.Errorf("%s: does not fit: %s", c.path, got)
			}
		}
		if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{}); err != nil {
			t.Fatal(err)
		}
		pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPrintBackground(), chromedp.PDFPreferCSSPageSize(), chromedp.PDFOutlineAndTagged()))
		if err != nil {
			t.Fatal(err)
		}
		picture(t, strings.NewReplacer("/", "-", ".html", ".pdf").Replace(c.path), pdf)
		plain, err := chromedp.Run(ctx, onlyPaper())
		if err != nil {
			t.Fatal(err)
		}
		boxes := func(pdf []byte) string { return fmt.Sprintf("%q", boxRule.FindAllSubmatch(pdf, -1)) }
		looked := strings.Contains(c.path, "/a4/") || strings.Contains(c.path, "/500ml/")
		if len(countRule.FindAll(plain, -1)) != len(countRule.FindAll(pdf, -1)) || boxes(plain) != boxes(pdf) || looked && !bytes.Equal(dots(t, plain), dots(t, pdf)) {
			t.Errorf("%s is printed otherwise without tags", c.path)
		}
		pages := len(countRule.FindAll(pdf, -1))
		if c.path != "binder.html" && pages != 1 {
			t.Errorf("%s prints on %d pages", c.path, pages)
		}
		if sheets := bytes.Count(files[c.path], []byte(`<section class="leaf`)); c.path == "binder.html" && pages != sheets {
			t.Errorf("the binder has %d sheets and is printed on %d", sheets, pages)
		}
		for _, box := range boxRule.FindAllSubmatch(pdf, -1) {
			w, _ := strconv.ParseFloat(string(box[1]), 64)
			h, _ := strconv.ParseFloat(string(box[2]), 64)
			if d := w - c.width*72/25.4; d < -1 || d > 1.2 {
				t.Errorf("%s is %g pt wide", c.path, w)
			}
			if d := h - c.height*72/25.4; d < -1 || d > 1.2 {
				t.Errorf("%s is %g pt high", c.path, h)
			}
		}
		if !bytes.HasPrefix(pdf, []byte("%PDF")) {
			t.Errorf("%s: no PDF", c.path)
		}
	}
	if got := complaints(); len(got) > 0 {
		t.Errorf("the browser complains: %s", strings.Join(got, "\n"))
	}
}

// TestEstimate holds the estimated height of cards against the printed one: at
// every scale it may not be smaller, nor so much larger that room is wasted.
func TestEstimate(t *testing.T) {
	b := fixture.Binder()
	files := render(t, Options{})
	ctx := browser.Open(t)
	home := serve(t, files)
	s := siteFor(t, b)
	for _, pr := range b.Prints {
		for _, name := range pr.Faces {
			face, _ := s.binder.Theme.Face(name)
			if len(face.Scale) == 0 {
				continue
			}
			file := face.Folder + "/" + pr.Variant + ".html"
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(int64(face.Size[0]*96/25.4)+30, 1100), chromedp.Navigate(home+file)); err != nil {
				t.Fatal(err)
			}
			for _, p := range b.Pages {
				if p.ID != pr.Page {
					continue
				}
				for i, scale := range face.Scale {
					got, err := chromedp.Run(ctx, chromedp.Evaluate[float64](`(()=>{const s=document.querySelector(".sheet");s.className=s.className.replace(/ ?fit-\d/g,"")+" fit-`+strconv.Itoa(i)+`";document.querySelector(".grow").remove();const g=document.createElement("div");g.className="grow";s.querySelector(".foot").before(g);const r=s.getBoundingClientRect();g.style.flex="none";s.style.minHeight="0";s.style.padding="0";const h=s.getBoundingClientRect().height;s.style.minHeight="";s.style.padding="";return h/96*25.4})()`))
					if err != nil {
						t.Fatal(err)
					}
					want := paper.Height(s.binder.View(p, face, pr.Choice), scale)
					if want < got-1 || want > got+24 {
						t.Errorf("%s at %g: estimated %.1f mm, is %.1f mm", file, scale, want, got)
					}
				}
			}
		}
	}
}

// TestWidths holds the measured widths of the face for paper against the
// browser's: the estimate may not be smaller.
func TestWidths(t *testing.T) {
	files := render(t, Options{})
	ctx := browser.Open(t)
	home := serve(t, files)
	if err := chromedp.Do(ctx, chromedp.Navigate(home+"label/500ml/film-developer.stock.html")); err != nil {
		t.Fatal(err)
	}
	v := typeset.FontsOf(fixture.Theme(t))
	for _, s := range []string{"Film developer", "May cause an allergic skin reaction.", "11:00", "Sodium sulfite, anhydrous 94.0 g", "AVATAR WAXY", "Größe 20 °C × 1 – „x“"} {
		for _, bold := range []bool{false, true} {
			weight := "400"
			if bold {
				weight = "700"
			}
			got, err := chromedp.Run(ctx, chromedp.Evaluate[float64](`(async()=>{await document.fonts.ready;await document.fonts.load("`+weight+` 10px Card");const s=document.querySelector(".drawn");const t=document.createElementNS("http://www.w3.org/2000/svg","text");t.setAttribute("font-size","10");t.setAttribute("font-weight","`+weight+`");t.textContent=`+strconv.Quote(s)+`;s.append(t);const w=t.getComputedTextLength();t.remove();return w})()`, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			if want := v.Measure(s, bold, 10); want < got-.05 {
				t.Errorf("%q, bold %v: estimated %.2f, is %.2f", s, bold, want, got)
			}
		}
	}
}

// TestSmallLetter measures the small letters and the capitals of the face for
// paper: labels reckon with letters that are not higher than they are.
func TestSmallLetter(t *testing.T) {
	files := render(t, Options{})
	ctx := browser.Open(t)
	home := serve(t, files)
	if err := chromedp.Do(ctx, chromedp.Navigate(home+"label/500ml/film-developer.stock.html")); err != nil {
		t.Fatal(err)
	}
	for _, weight := range []string{"400", "700"} {
		for _, c := range []struct {
			letter string
			want   float64
		}{{"x", labels.SmallLetter}, {"H", labels.Capital}} {
			got, err := chromedp.Run(ctx, chromedp.Evaluate[float64](`(async()=>{await document.fonts.load("`+weight+` 1000px Card");const c=document.createElement("canvas").getContext("2d");c.font="`+weight+` 1000px Card";return c.measureText("`+c.letter+`").actualBoundingBoxAscent/1000})()`, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			if got < c.want-.001 || got > c.want+.02 {
				t.Errorf("%s in %s is %.3f high, taken as %.3f", c.letter, weight, got, c.want)
			}
		}
	}
}
