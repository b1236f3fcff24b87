package build_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"net/url"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/testdata/browser"
)

// laidOut writes a binder into a folder.
func laidOut(t testing.TB, r *build.Result) string {
	t.Helper()
	dir := t.TempDir()
	for _, f := range r.Files {
		name := filepath.Join(dir, filepath.FromSlash(f.Path))
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
		require.NoError(t, os.WriteFile(name, f.Bytes, 0o644))
	}
	return dir
}

// printedAs prints a file of a binder as its style says, and rasterises it.
func printedAs(t testing.TB, ctx context.Context, dir, file string, how ...string) string {
	t.Helper()
	raster := browser.Program(t, "pdftoppm")
	at := url.URL{Scheme: "file", Path: filepath.Join(dir, file)}
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(at.String())))
	printed, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPrintBackground(), chromedp.PDFPreferCSSPageSize()))
	require.NoError(t, err)
	pdf := filepath.Join(t.TempDir(), "sheet.pdf")
	require.NoError(t, os.WriteFile(pdf, printed, 0o644))
	keep(t, strings.NewReplacer("/", "-", ".html", ".pdf").Replace(file), pdf)
	picture := filepath.Join(t.TempDir(), "sheet")
	out, err := exec.Command(raster, append(how, "-singlefile", pdf, picture)...).CombinedOutput()
	require.NoError(t, err, "%s", out)
	made, err := filepath.Glob(picture + ".*")
	require.NoError(t, err)
	require.Len(t, made, 1)
	return made[0]
}

// keep leaves what was printed for a person to look at, if asked for.
func keep(t testing.TB, name, file string) {
	dir := os.Getenv("WETSIDE_PICTURES")
	if dir == "" {
		return
	}
	b, err := os.ReadFile(file)
	require.NoError(t, err)
	require.NoError(t, os.MkdirAll(dir, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, name), b, 0o644))
}

// TestCodesRead prints a label, a wall card and a sign at the resolution of a
// plain printer, black and white, and reads the code off the picture.
func TestCodesRead(t *testing.T) {
	reader, ctx := browser.Program(t, "zbarimg"), browser.Open(t)
	dir := laidOut(t, bottled(t, binderAddress))
	for file, card := range map[string]string{
		"label/500ml/0301.html":                         "label/0301",
		"wall/a4/film-negative+film-400.double.html":    "process/film-negative",
		"wall/strip/film-negative+film-400.double.html": "process/film-negative",
		"label/trays/tray-fix-2.html":                   "label/tray-fix-2",
	} {
		picture := printedAs(t, ctx, dir, file, "-r", "300", "-mono")
		out, err := exec.Command(reader, "-q", "--raw", picture).Output()
		require.NoError(t, err, "%s: no code was read", file)
		require.Equal(t, binderAddress+"/"+card+".html", strings.TrimSpace(string(out)), file)
	}
}

// gray is a picture of eight bits a pixel.
type gray struct {
	wide, high int
	pixels     []byte
}

func readGray(t testing.TB, file string) gray {
	t.Helper()
	b, err := os.ReadFile(file)
	require.NoError(t, err)
	var g gray
	var most int
	_, err = fmt.Fscanf(bytes.NewReader(b), "P5\n%d %d\n%d", &g.wide, &g.high, &most)
	require.NoError(t, err)
	g.pixels = b[len(b)-g.wide*g.high:]
	return g
}

// edges are the first and the last dark pixel of a row or a column between two
// places, as millimetres.
func (g gray) edges(dpi float64, across bool, at, from, to float64) (first, last float64) {
	px := func(mm float64) int { return int(math.Round(mm * dpi / 25.4)) }
	first, last = -1, -1
	for i := px(from); i < px(to); i++ {
		x, y := i, px(at)
		if !across {
			x, y = y, x
		}
		if g.pixels[y*g.wide+x] < 128 {
			if first < 0 {
				first = float64(i) * 25.4 / dpi
			}
			last = float64(i+1) * 25.4 / dpi
		}
	}
	return first, last
}

// TestLabelIsTrueToSize measures a label of 52 × 74 mm off its printed sheet: the
// crop marks stand at its edges, its frame a little inside them.
func TestLabelIsTrueToSize(t *testing.T) {
	const dpi, line, inset = 600, .35, .3
	r := boundFiles(t, options(demonstrationWith(t, printed("", small52+"labels = [\"plain-fixer.working@500ml\"]\n"))),
		these("label/sheet.html", "assets/"))
	g := readGray(t, printedAs(t, browser.Open(t), laidOut(t, r), "label/sheet.html", "-r", "600", "-gray"))
	require.InDelta(t, 210, float64(g.wide)*25.4/dpi, .3)
	require.InDelta(t, 297, float64(g.high)*25.4/dpi, .3)
	near := func(want, got float64, what string) { require.InDelta(t, want, got, .3, what) }
	left, right := g.edges(dpi, true, 17.5, 10, 71)
	near(52, right-left, "the crop marks above")
	near(15, left, "where the label begins")
	top, foot := g.edges(dpi, false, 12.5, 15, 98)
	near(74, foot-top, "the crop marks beside")
	near(20, top, "where the label begins")
	left, right = g.edges(dpi, true, 60, 10, 71)
	near(52-2*inset+line, right-left, "the frame's width")
	top, foot = g.edges(dpi, false, 40, 18.5, 98)
	near(74-2*inset+line, foot-top, "the frame's height")
}

// lying lists the texts of drawn labels and signs that run out of their frame,
// lie over each other, or over a pictogram. What a text's box has above the
// capitals, a quarter of its height, is left out.
const lying = `(async()=>{document.body.offsetHeight;await document.fonts.ready;const bad=[];for(const s of document.querySelectorAll("svg.drawn")){const v=s.viewBox.baseVal,o=s.getBoundingClientRect(),k=v.width/o.width;
const box=e=>{const r=e.getBoundingClientRect();return{x:(r.x-o.x)*k,y:(r.y-o.y)*k,r:(r.right-o.x)*k,b:(r.bottom-o.y)*k,t:e.textContent}};
const T=[...s.querySelectorAll("text")].map(e=>{const r=box(e);r.y+=.25*(r.b-r.y);return r}),G=[...s.querySelectorAll("use,svg.code")].map(box);
for(const t of T){if(t.x<.8||t.r>v.width-.8||t.y<-.2||t.b>v.height+.2)bad.push("outside: "+t.t)}
for(let i=0;i<T.length;i++)for(let j=i+1;j<T.length;j++){const a=T[i],b=T[j],x=Math.min(a.r,b.r)-Math.max(a.x,b.x),y=Math.min(a.b,b.b)-Math.max(a.y,b.y);if(x>.2&&y>.2*Math.min(a.b-a.y,b.b-b.y))bad.push("over each other: "+a.t+" / "+b.t)}
for(const t of T)for(const g of G){const x=Math.min(t.r,g.r)-Math.max(t.x,g.x),y=Math.min(t.b,g.b)-Math.max(t.y,g.y);if(x>.3&&y>.3*(t.b-t.y))bad.push("over a sign: "+t.t)}
for(const c of [...s.querySelectorAll("svg.code")].map(box))for(const g of [...s.querySelectorAll("use")].map(box)){if(Math.min(c.r,g.r)-Math.max(c.x,g.x)>.3&&Math.min(c.b,g.b)-Math.max(c.y,g.y)>.3)bad.push("the code lies over a sign")}}
return document.querySelectorAll("svg.drawn").length+"|"+bad.join("; ")})()`

// exchange puts another page's body in the place of that which is open.
const exchange = `(html=>document.body.replaceWith(document.adoptNode(new DOMParser().parseFromString(html,"text/html").body)))`

// ownRule finds what a page says of itself in its head.
var ownRule = regexp.MustCompile(`<title>.*?</title>|<link rel="canonical"[^>]*>`)

// TestLabelsFit looks at every label and sign of the demonstration, with and
// without an address: nothing runs out of its frame or lies over anything.
func TestLabelsFit(t *testing.T) {
	ctx := browser.Open(t)
	require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(1280, 900)))
	o := options(demonstrationWith(t, map[string]func(string) string{
		"lab.toml": func(s string) string {
			return s + "\n[bottle.dropper]\nholds = \"30 mL\"\n[bottle.carboy]\nholds = \"25 L\"\n"
		},
		"solutions/odd.toml": func(string) string {
			return "name = \"" + strings.Repeat("long name ", 12) + "クエン酸停止液クエン酸停止液クエン酸停止液\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n"
		},
	}))
	for _, address := range []string{"", "https://darkroom.example/" + strings.Repeat("a", 90)} {
		o.Address = address
		r := boundFiles(t, o, func(file string) bool { return path.Dir(file) == "label" || path.Dir(file) == "assets" })
		dir, files := laidOut(t, r), filesOf(r)
		labels, head := 0, ""
		for i, p := range r.Binder.Pages {
			if p.Kind != "label" || p.ID == "label/sheet" || address != "" && i%5 != 0 { // with the code, a sample
				continue
			}
			own, body, _ := strings.Cut(files[p.ID+".html"], "<body")
			own = ownRule.ReplaceAllString(own, "")
			if head == "" { // opened once: the others have the same head, and only what they say is exchanged
				head = own
				at := url.URL{Scheme: "file", Path: filepath.Join(dir, p.ID+".html")}
				require.NoError(t, chromedp.Do(ctx, chromedp.Navigate(at.String())))
			}
			require.Equal(t, head, own, p.ID)
			said, err := json.Marshal("<body" + body)
			require.NoError(t, err)
			got, err := chromedp.Run(ctx, chromedp.Evaluate[string](exchange+"("+string(said)+");"+lying, chromedp.EvalAwaitPromise))
			require.NoError(t, err)
			count, bad, _ := strings.Cut(got, "|")
			var n int
			fmt.Sscan(count, &n)
			labels += n
			if bad != "" {
				t.Errorf("%s: %s", p.ID, bad)
			}
		}
		require.Greater(t, labels, 20)
	}
}
