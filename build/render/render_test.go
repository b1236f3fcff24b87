package render

import (
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"path"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/fstest"

	"wetside/build/render/testdata/fixture"
	"wetside/build/theme"
	"wetside/procedures/page"
	"wetside/themes"
)

func TestSameAgain(t *testing.T) {
	th := fixture.Theme(t)
	one, err := Site(fixture.Binder(), th, Options{Minify: true})
	if err != nil {
		t.Fatal(err)
	}
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	two, err := Site(fixture.Binder(), th, Options{Minify: true})
	if err != nil {
		t.Fatal(err)
	}
	if len(one) != len(two) {
		t.Fatalf("%d files, then %d", len(one), len(two))
	}
	for i := range one {
		if one[i].Path != two[i].Path || !bytes.Equal(one[i].Bytes, two[i].Bytes) {
			t.Errorf("%s is not the same again", one[i].Path)
		}
	}
}

var (
	forbidden = regexp.MustCompile(`(?i)\sstyle=|\son[a-z]+=|<pattern|(src|href)="(https?:)?//|url\(["']?https?:|#ZgotmplZ|<script>`)
	exempt    = regexp.MustCompile(`(?s)<(data|time|option|title|style|script|desc)\b[^>]*>.*?</(data|time|option|title|style|script|desc)>`)
	tags      = regexp.MustCompile(`(?s)<[^>]*>`)
	digit     = regexp.MustCompile(`[0-9]`)
)

// without removes every element that opens with a tag holding mark, with what
// is in it.
func without(html, mark string) string {
	for {
		at := strings.Index(html, mark)
		if at < 0 {
			return html
		}
		begin := strings.LastIndexByte(html[:at], '<')
		name := html[begin+1 : begin+1+strings.IndexAny(html[begin+1:], " >")]
		depth, i := 0, begin
		for {
			open, close := strings.Index(html[i:], "<"+name), strings.Index(html[i:], "</"+name)
			if close < 0 {
				return html[:begin]
			}
			if open >= 0 && open < close {
				depth, i = depth+1, i+open+1
				continue
			}
			depth, i = depth-1, i+close+1
			if depth == 0 {
				html = html[:begin] + html[i+strings.IndexByte(html[i:], '>')+1:]
				break
			}
		}
	}
}

func TestRules(t *testing.T) {
	for name, b := range render(t, Options{}) {
		if path.Ext(name) != ".html" {
			continue
		}
		html := string(b)
		if m := forbidden.FindString(html); m != "" {
			t.Errorf("%s holds %q", name, m)
		}
		if strings.Contains(html, `http-equiv="refresh"`) {
			continue
		}
		text := exempt.ReplaceAllString(html, "")
		for _, mark := range []string{`class="n`, `data-f="`, `class="foot"`, `class="holes"`} {
			text = without(text, mark)
		}
		text = tags.ReplaceAllString(text, " ")
		if m := digit.FindStringIndex(text); m != nil {
			t.Errorf("%s has a bare digit: …%s…", name, text[max(0, m[0]-40):min(len(text), m[1]+20)])
		}
		if strings.Count(html, "DEMONSTRATION") == 0 {
			t.Errorf("%s does not say that it is a demonstration", name)
		}
	}
}

func TestNothingDropped(t *testing.T) {
	files := render(t, Options{Minify: true})
	for name, want := range map[string][]string{
		"wall/a4/film-negative+film-400.double.html":    {"Vent after each turn.", "fixer before stop", "gloves", "approved"},
		"wall/a5/film-developer.stock+1000ml.html":      {"Sensitiser: no dust.", "let acid near it", "goggles", ">94</span>"},
		"wall/strip/film-negative+film-400.double.html": {"NEVER", "goggles", "10:50", "STOP"},
		"label/500ml/film-developer.stock.html":         {"DANGER", "NEVER", "Wear", "May cause"},
		"mix/stop.html":                                 {"4 not filled in", "Hazards not looked up", "keeps in solutions/stop.toml"},
		"mix/film-developer.html":                       {`href="../why/film-developer.stock.html#weigh.hydroquinone@1000ml"`, `href="../board/emergency.html"`},
		"mix/old-film-developer.html":                   {`url=../mix/film-developer.html`},
	} {
		for _, w := range want {
			if !bytes.Contains(files[name], []byte(w)) {
				t.Errorf("%s lacks %q", name, w)
			}
		}
	}
	// The marked number alone: the digits may stand in the name of a hashed file.
	other := regexp.MustCompile(`<data value="?188`)
	if !other.Match(files["mix/film-developer.html"]) {
		t.Error("the screen does not show every batch")
	}
	if other.Match(files["wall/a5/film-developer.stock+1000ml.html"]) {
		t.Error("a print shows another batch than its own")
	}
}

func TestSmall(t *testing.T) {
	for name, b := range render(t, Options{Minify: true}) {
		if path.Ext(name) != ".html" || name == "binder.html" {
			continue
		}
		var z bytes.Buffer
		w := gzip.NewWriter(&z)
		w.Write(b)
		w.Close()
		if z.Len() > 30_000 {
			t.Errorf("%s is %d bytes compressed", name, z.Len())
		}
	}
}

// TestMinifySaysTheSame compares the words of each page with and without.
func TestMinifySaysTheSame(t *testing.T) {
	long, short := render(t, Options{}), render(t, Options{Minify: true})
	plain := func(b []byte) string {
		s := regexp.MustCompile(`\s+`).ReplaceAllString(tags.ReplaceAllString(string(b), " "), " ")
		return strings.NewReplacer("&nbsp;", "\u00a0", "&#43;", "+", "&#39;", "'", "&#34;", `"`).Replace(strings.TrimSpace(s))
	}
	for name, b := range long {
		if path.Ext(name) == ".html" && plain(b) != plain(short[name]) {
			t.Errorf("%s says something else when minified", name)
		}
	}
}

func TestDigest(t *testing.T) {
	b := fixture.Binder()
	p := b.Pages[1]
	was := page.Digest(p)
	if len(was) != 8 {
		t.Fatalf("the fingerprint is %q", was)
	}
	p.Foot.Fingerprint = was
	if page.Digest(p) != was {
		t.Error("the fingerprint counts itself")
	}
	for _, f := range b.Figures {
		if f.ID == "film-developer.stock/weigh.hydroquinone@1000ml" {
			f.Shown = "4.51"
		}
	}
	if page.Digest(p) == was {
		t.Error("another figure, the same fingerprint")
	}
}

// TestMissingFigure: a figure that was left out stops the binder, wherever it belongs.
func TestMissingFigure(t *testing.T) {
	for name, b := range map[string]page.Block{
		"none":    page.Para{Text: page.Say(page.F(nil))},
		"no list": page.Para{Text: page.Say(page.B())},
		"refused": page.Table{Rows: []page.Row{{Cells: []page.Cell{{No: true, Refused: nil}, {Text: page.Say(page.F(nil))}}}}},
	} {
		binder := fixture.Binder()
		binder.Pages[1].Key = append(binder.Pages[1].Key, b)
		if _, err := Site(binder, fixture.Theme(t), Options{}); err == nil || !strings.Contains(err.Error(), "no figure in it") {
			t.Errorf("%s: a figure that is missing is not told: %v", name, err)
		}
	}
}

func TestHouseStyle(t *testing.T) {
	own := fstest.MapFS{"blocks/para.html": {Data: []byte(`<p class="ours">{{.Say .B.Text}}</p>`)}}
	th, err := theme.Open(themes.FS, own)
	if err != nil {
		t.Fatal(err)
	}
	files, err := Site(fixture.Binder(), th, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if f.Path == "mix/film-developer.html" && !bytes.Contains(f.Bytes, []byte(`class="ours"`)) {
			t.Error("the house style is not used")
		}
	}
}

// TestPlanHandsOver: every file of the plan comes once and no other; after a failure
// none is begun, and a panic is the caller's.
func TestPlanHandsOver(t *testing.T) {
	plan, err := Lay(fixture.Binder(), fixture.Theme(t), Options{})
	if err != nil {
		t.Fatal(err)
	}
	plan.Add("more.txt", func(w io.Writer) error { _, err := io.WriteString(w, "more"); return err })
	var mutex sync.Mutex
	var came []string
	if err := plan.Render(func(path string, write func(io.Writer) error) error {
		mutex.Lock()
		defer mutex.Unlock()
		came = append(came, path)
		return write(io.Discard)
	}); err != nil {
		t.Fatal(err)
	}
	slices.Sort(came)
	if !slices.Equal(came, plan.Paths()) {
		t.Errorf("came %v, planned %v", came, plan.Paths())
	}
	var begun atomic.Int32
	err = plan.Render(func(string, func(io.Writer) error) error { begun.Add(1); return errors.New("the disk is full") })
	if err == nil || !strings.Contains(err.Error(), "the disk is full") || int(begun.Load()) > runtime.GOMAXPROCS(0) {
		t.Errorf("%v after %d files", err, begun.Load())
	}
	// A page that cannot be made is told where it is asked for, and made nowhere else.
	th, err := theme.Open(themes.FS, fstest.MapFS{"blocks/para.html": {Data: []byte(`{{.B.Nothing}}`)}})
	if err != nil {
		t.Fatal(err)
	}
	broken, err := Lay(fixture.Binder(), th, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if err := broken.Render(func(string, func(io.Writer) error) error { return nil }); err != nil {
		t.Errorf("a page is made that nobody asks for: %v", err)
	}
	err = broken.Render(func(_ string, write func(io.Writer) error) error { return write(io.Discard) })
	if err == nil || !strings.Contains(err.Error(), "Nothing") {
		t.Errorf("a page that cannot be made: %v", err)
	}
	defer func() {
		if what := recover(); what != "a mistake" {
			t.Errorf("recovered %v", what)
		}
	}()
	plan.Render(func(string, func(io.Writer) error) error { panic("a mistake") })
	t.Error("no panic")
}
