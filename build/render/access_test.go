package render

import (
	_ "embed"
	"fmt"
	"testing"

	"github.com/chromedp/chromedp"

	"wetside/testdata/browser"
)

// axe is axe-core 4.14.1 (MPL-2.0), which holds a page against the success
// criteria of WCAG 2.0 to 2.2; for this test alone, shipped with nothing.
//
//go:embed testdata/axe.min.js
var axe string

// TestAccessible holds one page of every kind against WCAG A and AA: light on a
// desk, dark and dim red on a telephone. It counts violations; what axe cannot
// decide, a link under a text that overlaps it or one that a narrow navigation has
// pushed aside, is left to the eye.
func TestAccessible(t *testing.T) {
	demo, served := demonstrationSite(t)
	ctx := browser.Open(t)
	home := serve(t, served)
	const run = `axe.run(document, {runOnly: %s, resultTypes: ["violations"]}).then(r => r.violations.map(v => v.id+" ("+v.impact+"): "+v.nodes.slice(0, 2).map(n => n.target.join(" ")+" "+(n.any.concat(n.all, n.none)[0]||{message: ""}).message).join("; ")))`
	const all, colours = `["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]`, `{type: "rule", values: ["color-contrast", "link-in-text-block"]}`
	kinds := map[string]bool{}
	for p := range demo.All() {
		if kinds[p.Kind] {
			continue
		}
		kinds[p.Kind] = true
		if err := chromedp.Do(ctx, chromedp.Navigate(home+p.ID+".html")); err != nil {
			t.Fatal(err)
		}
		if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](axe+";true")); err != nil {
			t.Fatal(err)
		}
		for _, look := range []struct {
			ground string
			width  int64
			rules  string
		}{{"light", 1280, all}, {"dark", 390, all}, {"red", 390, colours}} {
			ground := look.ground
			if err := chromedp.Do(ctx, chromedp.EmulateViewport(look.width, 844)); err != nil {
				t.Fatal(err)
			}
			if wide, err := chromedp.Run(ctx, chromedp.Evaluate[int64](`document.getElementById("ground-`+ground+`").click(), innerWidth`)); err != nil || wide != look.width {
				t.Fatalf("%s is %d px wide, not %d (%v)", p.ID, wide, look.width, err)
			}
			got, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](fmt.Sprintf(run, look.rules), chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			for _, g := range got {
				t.Errorf("%s on the %s ground: %s", p.ID, ground, g)
			}
		}
	}
	if len(kinds) < 10 {
		t.Errorf("%d kinds of page", len(kinds))
	}
}
