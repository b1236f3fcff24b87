package render

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"html/template"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"wetside/build/load"
	"wetside/build/prose"
	"wetside/build/render/draw"
	"wetside/build/render/paper"
	"wetside/build/render/testdata/fixture"
	"wetside/build/theme"
	"wetside/content"
	"wetside/procedures"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
	"wetside/testdata/browser"
)

// paperFaces are the faces of cards for the wall.
var paperFaces = []string{"wall-a4", "wall-letter", "wall-a5", "wall-half", "wall-a6", "index"}

var demonstrationOnce = sync.OnceValues(func() (procedures.Binder, error) {
	folder, err := fs.Sub(content.FS, "demo")
	if err != nil {
		return procedures.Binder{}, err
	}
	return binderOf(folder)
})

// binderOf works a lab out for its own day, or for one day.
func binderOf(folder fs.FS) (procedures.Binder, error) {
	loaded, err := load.Folder(folder, content.FS)
	if err != nil {
		return procedures.Binder{}, err
	}
	day := loaded.Lab.Place.Lab.Day
	if day == (unit.Date{}) {
		day = unit.Date{Year: 2026, Month: 3, Day: 14}
	}
	b, problems := procedures.Compute(loaded.Lab, day)
	known := prose.NewKnown(b, loaded.Notices)
	var notices []page.Page
	for _, n := range loaded.Notices {
		p, _ := prose.Page(n, known)
		notices = append(notices, p)
	}
	b.Finish(notices...)
	if len(b.Pages) == 0 {
		return b, fmt.Errorf("the lab has faults: %v", problems)
	}
	return b, nil
}

// siteOf is a lab's binder and its files by path.
func siteOf(t *testing.T, folder fs.FS) (procedures.Binder, map[string][]byte) {
	t.Helper()
	b, err := binderOf(folder)
	if err != nil {
		t.Fatal(err)
	}
	return b, servedOf(t, b)
}

// demonstrationSite is the demonstration's binder and its files by path, which are made once.
func demonstrationSite(t *testing.T) (procedures.Binder, map[string][]byte) {
	t.Helper()
	demo, err := demonstrationOnce()
	if err != nil {
		t.Fatal(err)
	}
	if demonstrationFiles == nil {
		demonstrationFiles = servedOf(t, demo)
	}
	return demo, maps.Clone(demonstrationFiles)
}

// What tests share of the demonstration is only read once made.
var (
	demonstrationFiles map[string][]byte
	demonstrationSites = map[string]*site{} // by the face on which all is printed
)

// demonstrationOn is the demonstration with every card for the wall on one face.
func demonstrationOn(t *testing.T, face string) *site {
	t.Helper()
	if demonstrationSites[face] == nil {
		demo, err := demonstrationOnce()
		if err != nil {
			t.Fatal(err)
		}
		demonstrationSites[face] = onFace(t, onPaper(demo, face), face)
	}
	return demonstrationSites[face]
}

func servedOf(t *testing.T, b procedures.Binder) map[string][]byte {
	t.Helper()
	files, err := Site(b, fixture.Theme(t), Options{})
	if err != nil {
		t.Fatal(err)
	}
	served := map[string][]byte{}
	for _, f := range files {
		served[f.Path] = f.Bytes
	}
	return served
}

// onPaper is a binder whose every card for the wall is printed on one face.
func onPaper(b procedures.Binder, face string) procedures.Binder {
	prints := b.Prints
	b.Prints = nil
	for _, pr := range prints {
		for _, f := range pr.Faces {
			if f != "binder" && f != "strip" && !strings.HasPrefix(f, "label") {
				pr.Faces = []string{face}
				b.Prints = append(b.Prints, pr)
				break
			}
		}
	}
	return b
}

// placed is a binder with its prints decided on.
func placed(t testing.TB, b procedures.Binder) (*site, []paper.Fitted) {
	t.Helper()
	s := siteFor(t, b)
	fitted, err := s.place()
	if err != nil {
		t.Fatal(err)
	}
	return s, fitted
}

// onFace is a binder with its prints on one face: what would take too many sheets of it is on a
// larger paper, and is left out.
func onFace(t testing.TB, b procedures.Binder, face string) *site {
	t.Helper()
	s, _ := placed(t, b)
	s.prints = slices.DeleteFunc(s.prints, func(pr paper.Print) bool { return pr.Face.Name != face })
	return s
}

// oneDocument writes all cards of a binder into one document, and lists for each
// sheet what it is and how high it is estimated to be.
func oneDocument(t testing.TB, s *site) (html []byte, assets []File, names []string, want []float64, onSheet []int) {
	t.Helper()
	assets, err := s.assets()
	if err != nil {
		t.Fatal(err)
	}
	var all template.HTML
	first := s.binder.View(page.Page{ID: "all", Title: "All"}, s.prints[0].Face, -1)
	for _, pr := range s.prints {
		pr.Path = "all.html"
		v := s.binder.View(pr.Page, pr.Face, pr.Choice)
		v.Symbols = first.Symbols
		body, err := s.pages.Body(v, pr.Path, "", &pr)
		if err != nil {
			t.Fatal(err)
		}
		first.Symbols = v.Symbols
		all += body
		for k, p := range pr.Sheets {
			w := s.binder.View(p, pr.Face, pr.Choice)
			w.Close, w.Tight = pr.Close, pr.Tight
			if len(pr.Sheets) > 1 {
				w.Cut, w.Cuts = k+1, len(pr.Sheets)
			}
			names = append(names, fmt.Sprintf("%s on %s, %d of %d", pr.Page.ID, pr.Face.Name, k+1, len(pr.Sheets)))
			want = append(want, paper.Height(w, pr.Face.Scales(pr.Page.ID)[pr.Scale]))
			onSheet = append(onSheet, len(pr.Sheets))
		}
	}
	var b bytes.Buffer
	if err := s.pages.Document(&b, first, "all.html", "All", nil, all); err != nil {
		t.Fatal(err)
	}
	return b.Bytes(), assets, names, want, onSheet
}

// natural is how high each sheet is in mm without the room that its paper leaves. All are
// changed, then all are measured: the browser lays the document out once and not once for
// each of them.
const natural = `document.fonts.ready.then(()=>{const all=[...document.querySelectorAll(".sheet")];const set=(flex,none)=>{for(const s of all){s.querySelector(".grow").style.flex=flex;s.style.minHeight=s.style.paddingTop=s.style.paddingBottom=none}};set("none","0");const high=all.map(s=>s.getBoundingClientRect().height/96*25.4);set("","");return high})`

// tooSmall lists, by sheet, boxes whose content is wider than they are, or cut off.
const tooSmall = `[...document.querySelectorAll(".sheet")].map((s,i)=>[...s.querySelectorAll(".head,.kind,h1,.quantity,.step,.step .do,.amt,.device,.bath,.at,.what,.for,.long,.temps li,.part,td,th,.caution,.gear li,.foot")].concat([s]).filter(e=>e.scrollWidth>e.clientWidth+(e.matches(".refused,.temps li")?4:1)&&getComputedStyle(e).display!="inline"||e.getBoundingClientRect().right>s.getBoundingClientRect().right+1||(getComputedStyle(e).overflow!="visible"&&e.scrollHeight>e.clientHeight+1)).map(e=>i+": "+e.tagName+"."+e.className+" "+e.scrollWidth+">"+e.clientWidth+" "+e.textContent.slice(0,30))).flat()`

// TestPapers prints every card of the demonstration on every paper, one document a
// paper. The estimate may not be too small, no box is cut off, and the printer needs as many sheets as were planned.
func TestPapers(t *testing.T) {
	demo, err := demonstrationOnce()
	if err != nil {
		t.Fatal(err)
	}
	ctx := browser.Open(t)
	for _, name := range paperFaces {
		checkPapers(t, ctx, demonstrationOn(t, name), name)
	}
	// Punched and laminated: the first thirty on two papers.
	for _, name := range []string{"wall-a4", "wall-a6"} {
		b := onPaper(demo, name)
		b.Prints, b.Paper = b.Prints[:30], page.Paper{Punch: true, Laminate: true}
		checkPapers(t, ctx, onFace(t, b, name), name+" finished")
	}
}

func checkPapers(t *testing.T, ctx context.Context, s *site, name string) {
	t.Helper()
	html, assets, names, want, _ := oneDocument(t, s)
	files := map[string][]byte{"all.html": html}
	for _, f := range assets {
		files[f.Path] = f.Bytes
	}
	home := serve(t, files)
	face := s.prints[0].Face
	room := paper.Room(face)
	emulatePrint(t, ctx)
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(int64(face.Size[0]*96/25.4)+60, 1100), chromedp.Navigate(home+"all.html")); err != nil {
		t.Fatal(err)
	}
	got, err := chromedp.Run(ctx, chromedp.Evaluate[[]float64](natural, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	if len(got) != len(want) {
		t.Fatalf("%s: %d sheets, not %d", name, len(got), len(want))
	}
	wasted := 0.0
	for i := range got {
		if want[i] < got[i]-1 || want[i] > got[i]+wasteOf(room) {
			t.Errorf("%s: estimated %.1f mm, is %.1f mm", names[i], want[i], got[i])
		}
		if got[i] > room+.7 {
			t.Errorf("%s is %.1f mm high, and the sheet has %.1f mm", names[i], got[i], room)
		}
		wasted += want[i] - got[i]
	}
	t.Logf("%s: %d sheets, estimates %.1f mm too high on average", name, len(got), wasted/float64(len(got)))
	little, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](tooSmall))
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range little {
		i, rest, _ := strings.Cut(l, ": ")
		n, _ := strconv.Atoi(i)
		t.Errorf("%s: does not fit: %s", names[n], rest)
	}
	// How many sheets the printer needs and of what size hangs on where all stands; to paint it as well
	// would take twice as long.
	if os.Getenv("WETSIDE_PICTURES") == "" {
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.body.style.visibility="hidden",true`)); err != nil {
			t.Fatal(err)
		}
	}
	pdf, err := chromedp.Run(ctx, onlyPaper())
	if err != nil {
		t.Fatal(err)
	}
	name = strings.ReplaceAll(name, " ", "-")
	picture(t, "cards-"+name+".pdf", pdf)
	// A contact sheet of every kind on this paper.
	if os.Getenv("WETSIDE_PICTURES") != "" {
		const small = `(()=>{const b=document.body;b.style.cssText="display:flex;flex-wrap:wrap;align-items:flex-start;gap:10px;width:5600px;height:auto";for(const s of b.querySelectorAll(".sheet")){s.style.margin=0;s.style.breakAfter="auto"}document.documentElement.style.zoom=".32";return new Promise(r=>setTimeout(()=>r(true),300))})()`
		if _, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{}); err != nil {
			t.Fatal(err)
		}
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(1800, 1200)); err != nil {
			t.Fatal(err)
		}
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](small, chromedp.EvalAwaitPromise)); err != nil {
			t.Fatal(err)
		}
		look(t, ctx, "contact-"+name)
	}
	if pages := len(countRule.FindAll(pdf, -1)); pages != len(got) {
		t.Errorf("%s: %d sheets are printed on %d pages", name, len(got), pages)
	}
	for _, box := range boxRule.FindAllSubmatch(pdf, -1) {
		w, _ := strconv.ParseFloat(string(box[1]), 64)
		h, _ := strconv.ParseFloat(string(box[2]), 64)
		if !near(w, face.Size[0]) || !near(h, face.Size[1]) {
			t.Errorf("%s: a page of %g × %g pt", name, w, h)
			break
		}
	}
}

// TestProductPapers: the card of a product is one sheet on every paper that is not smaller than
// half a letter.
func TestProductPapers(t *testing.T) {
	for _, face := range []string{"wall-a4", "wall-letter", "wall-a5", "wall-half"} {
		products := 0
		for _, pr := range demonstrationOn(t, face).prints {
			if pr.Page.Kind == "product" {
				products++
				if len(pr.Sheets) != 1 {
					t.Errorf("%s on %s: %d sheets", pr.Page.ID, face, len(pr.Sheets))
				}
			}
		}
		if products != 5 {
			t.Errorf("%s: %d products, not 5", face, products)
		}
	}
	bag, err := binderOf(binders.Read(t, "../../testdata/binders/clearing-bag.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	s, _ := placed(t, onPaper(bag, "wall-a5"))
	for _, pr := range s.prints {
		if pr.Page.ID == "product/bag" && len(pr.Sheets) != 1 {
			t.Errorf("the bag on wall-a5: %d sheets", len(pr.Sheets))
		}
	}
}

// TestSamePrint prints cards from every ground: the same pages, dot by dot.
func TestSamePrint(t *testing.T) {
	files := render(t, Options{Minify: true})
	ctx := browser.Open(t)
	home := serve(t, files)
	cards := []string{"wall/a4/film-negative+film-400.double", "wall/a5/film-developer.stock+1000ml", "wall/strip/film-negative+film-400.double", "label/film-developer.stock", "mix/film-developer", "board/emergency"}
	first := map[string][]byte{}
	for _, ground := range []string{"light", "dark", "red"} {
		// A ground is chosen on one page, and the others remember it.
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(900, 900), chromedp.Navigate(home+"mix/stop.html")); err != nil {
			t.Fatal(err)
		}
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.getElementById("ground-`+ground+`").click(), true`)); err != nil {
			t.Fatal(err)
		}
		for _, c := range cards {
			if err := chromedp.Do(ctx, chromedp.Navigate(home+c+".html")); err != nil {
				t.Fatal(err)
			}
			if got, err := chromedp.Run(ctx, chromedp.Evaluate[string](`document.fonts.ready.then(()=>document.documentElement.dataset.ground||"light")`, chromedp.EvalAwaitPromise)); err != nil || got != ground {
				t.Fatalf("%s: the ground is %q, not %q (%v)", c, got, ground, err)
			}
			pdf, err := chromedp.Run(ctx, onlyPaper())
			if err != nil {
				t.Fatal(err)
			}
			got := dots(t, pdf)
			if first[c] == nil {
				first[c] = got
			}
			if !bytes.Equal(got, first[c]) {
				t.Errorf("%s prints otherwise from the %s ground", c, ground)
			}
		}
	}
}

// dots is every page of a printed file at 75 dots an inch.
func dots(t *testing.T, pdf []byte) []byte {
	t.Helper()
	raster := browser.Program(t, "pdftoppm")
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "sheet.pdf"), pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := exec.Command(raster, "-r", "75", filepath.Join(dir, "sheet.pdf"), filepath.Join(dir, "page")).CombinedOutput(); err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	pages, err := filepath.Glob(filepath.Join(dir, "page*.ppm"))
	if err != nil || len(pages) == 0 {
		t.Fatalf("no pages (%v)", err)
	}
	var all []byte
	for _, name := range pages {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, b...)
	}
	return all
}

// TestPhone opens every page of the demonstration on the narrowest telephone: no
// page and no table is wider than it, so nothing has to be pushed aside to be read.
func TestPhone(t *testing.T) {
	demo, served := demonstrationSite(t)
	ctx := browser.Open(t)
	home := serve(t, served)
	// Loaded once: the pages share their style, and only what they say is exchanged.
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(320, 800), chromedp.Navigate(home+"index.html")); err != nil {
		t.Fatal(err)
	}
	// Several pages go in one call: between two calls the browser would paint what nobody looks at.
	const wide = `(bodies => bodies.map(body => {
		document.body.innerHTML = body;
		const page = document.documentElement, out = [...document.querySelectorAll(".tw,.step p")].filter(e => e.scrollWidth > e.clientWidth+1).map(e => e.className+" "+(e.getAttribute("aria-label") || e.textContent.slice(0, 40))+" "+e.scrollWidth+">"+e.clientWidth);
		const pushed = e => { for (e = e.parentElement; e !== document.body; e = e.parentElement) if (getComputedStyle(e).overflowX !== "visible") return true; return false };
		if (page.scrollWidth > page.clientWidth) for (const e of document.querySelectorAll("body *")) if (e.getBoundingClientRect().right > page.clientWidth+1 && !pushed(e)) out.push(e.tagName+"."+e.className+" "+e.textContent.slice(0, 40));
		return out }))`
	bodyOf := func(from map[string][]byte, p page.Page) string {
		_, body, found := bytes.Cut(from[p.ID+".html"], []byte("<body"))
		_, body, _ = bytes.Cut(body, []byte(">"))
		if !found {
			t.Fatalf("%s is no page", p.ID)
		}
		return string(body)
	}
	check := func(from map[string][]byte, pages []page.Page, width int) {
		for some := range slices.Chunk(pages, 16) {
			var bodies []string
			for _, p := range some {
				bodies = append(bodies, bodyOf(from, p))
			}
			said, err := json.Marshal(bodies)
			if err != nil {
				t.Fatal(err)
			}
			got, err := chromedp.Run(ctx, chromedp.Evaluate[[][]string](wide+"("+string(said)+")"))
			if err != nil || len(got) != len(some) {
				t.Fatalf("%d of %d pages (%v)", len(got), len(some), err)
			}
			for i, p := range some {
				for _, g := range got[i] {
					t.Errorf("%s at %d px: too wide: %s", p.ID, width, g)
				}
			}
		}
	}
	var flowed []page.Page
	for p := range demo.All() {
		if p.Kind != "label" { // drawn to size, not flowed
			flowed = append(flowed, p)
		}
	}
	check(served, flowed, 320)
	// A lab that cannot weigh all that it wants: the demonstration refuses no amount.
	lab, labServed := siteOf(t, fstest.MapFS{
		"lab.toml":            {Data: []byte("[lab]\nname = \"Test\"\n[scale.bench]\nreads = \"0.1 g\"\n")},
		"solutions/salt.toml": {Data: []byte("name = \"salt\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-sulfite\"\namount = \"95 g\"\n[[step]]\nadd = \"potassium-bromide\"\namount = \"0.5 g\"\n")},
	})
	refused := `<p class="amt"><span class="no"`
	mixing := slices.DeleteFunc(slices.Clone(lab.Pages), func(p page.Page) bool {
		return p.Kind != "mixing" || !bytes.Contains(labServed[p.ID+".html"], []byte(refused))
	})
	if len(mixing) == 0 {
		t.Error("no card refuses an amount")
	}
	check(labServed, mixing, 320)
	// On a phone of 390 by 844 the first clock and the first amount stand within a screen
	// and a half.
	const first = `(body => { document.body.innerHTML = body; const e = document.querySelector(".bath .at,.step .amt"); return [e ? Math.round(e.getBoundingClientRect().bottom+scrollY) : 0] })`
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(390, 844)); err != nil {
		t.Fatal(err)
	}
	looked := 0
	for _, p := range demo.Pages {
		if p.Kind != "process" && p.Kind != "mixing" {
			continue
		}
		said, err := json.Marshal(bodyOf(served, p))
		if err != nil {
			t.Fatal(err)
		}
		got, err := chromedp.Run(ctx, chromedp.Evaluate[[]int](first+"("+string(said)+")"))
		if err != nil {
			t.Fatal(err)
		}
		if y := got[0]; y > 0 {
			looked++
			if y > 1266 {
				t.Errorf("%s at 390 px: the first figure ends at %d px", p.ID, y)
			}
		}
	}
	if looked < 30 {
		t.Errorf("%d pages with a clock or an amount", looked)
	}
	// Where two columns begin, each is at its narrowest.
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(900, 800)); err != nil {
		t.Fatal(err)
	}
	check(labServed, mixing, 900)
	check(served, slices.DeleteFunc(slices.Clone(demo.Pages), func(p page.Page) bool { return p.Kind != "mixing" }), 900)
}

var (
	drawnRule = regexp.MustCompile(`<svg class="drawn" width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"`)
	mainRule  = regexp.MustCompile(`(?s)<main[^>]*>(.*)</main>`)
	headRule  = regexp.MustCompile(`(?s)<head>.*</head>`)
)

// TestDrawnToSize: every strip, label and sign of the demonstration is drawn in
// millimetres, on a size that its face has. With WETSIDE_PICTURES it leaves a
// contact sheet of each face.
func TestDrawnToSize(t *testing.T) {
	_, served := demonstrationSite(t)
	sizes := map[string]bool{} // by folder of the face
	for _, f := range fixture.Theme(t).Faces {
		if f.Medium == theme.Drawn {
			for _, size := range append([][]float64{f.Size}, f.Larger...) {
				sizes[f.Folder+": "+draw.MM(size[0])+" × "+draw.MM(size[1])] = true
			}
		}
	}
	contact := map[string]string{}
	drawn := 0
	for _, name := range slices.Sorted(maps.Keys(served)) {
		html := served[name]
		face, rest, _ := strings.Cut(name, "/")
		folder := face
		if sub, _, deep := strings.Cut(rest, "/"); face == "wall" && sub == "strip" {
			face, folder = "strip", "wall/strip"
		} else if face != "label" || !deep {
			continue
		}
		m := drawnRule.FindSubmatch(html)
		if m == nil {
			t.Errorf("%s is not drawn", name)
			continue
		}
		drawn++
		w, h := string(m[1]), string(m[2])
		if w != string(m[3]) || h != string(m[4]) {
			t.Errorf("%s: %s × %s mm, drawn in %s × %s", name, w, h, m[3], m[4])
		}
		if !sizes[folder+": "+w+" × "+h] {
			t.Errorf("%s: %s × %s mm is no size of a face", name, w, h)
		}
		contact[face] += string(mainRule.FindSubmatch(html)[1])
	}
	if drawn < 100 {
		t.Errorf("%d strips, labels and signs", drawn)
	}
	if os.Getenv("WETSIDE_PICTURES") == "" {
		return
	}
	ctx := browser.Open(t)
	for face, body := range contact {
		served["contact-"+face+".html"] = []byte(`<!doctype html><html>` + string(headRule.Find(served["index.html"])) + `<body class="press medium-drawn">` + body)
	}
	home := serve(t, served)
	const small = `(()=>{const b=document.body;for(const e of document.querySelectorAll(".away"))e.remove();b.style.cssText="display:flex;flex-wrap:wrap;align-items:flex-start;gap:10px;width:5600px;height:auto;background:#bbb";for(const s of b.querySelectorAll("svg.drawn")){s.style.background="#fff";s.style.flex="none"}document.documentElement.style.zoom=".32";return new Promise(r=>setTimeout(()=>r(true),300))})()`
	for face := range contact {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(1800, 1200), chromedp.Navigate(home+"contact-"+face+".html")); err != nil {
			t.Fatal(err)
		}
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](small, chromedp.EvalAwaitPromise)); err != nil {
			t.Fatal(err)
		}
		look(t, ctx, "contact-"+face)
	}
}

// wasteOf is how much too high an estimate may be on a sheet with so much room.
func wasteOf(room float64) float64 { return max(14, min(36, room*.15)) }

// near tells whether a length in points is so many mm, to the browser's rounding.
func near(pt, mm float64) bool { d := pt - mm*72/25.4; return d > -1 && d < 1.2 }
