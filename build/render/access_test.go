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
	const run = `axe.run(document, {runOnly: %s}).then(r => r.violations.map(v => v.id+" ("+v.impact+"): "+v.nodes.slice(0, 2).map(n => n.target.join(" ")+" "+(n.any.concat(n.all, n.none)[0]||{message: ""}).message).join("; ")))`
	const all, colours = `["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]`, `{type: "rule", values: ["color-contrast", "link-in-text-block"]}`
	kinds := map[string]bool{}
	for p := range demo.All() {
		if kinds[p.Kind] {
			continue
		}
		kinds[p.Kind] = true
		for _, look := range []struct {
			ground string
			width  int64 // 0: the page is open, and only its colours change
			rules  string
		}{{"light", 1280, all}, {"dark", 390, all}, {"red", 0, colours}} {
			ground := look.ground
			if look.width > 0 {
				if err := chromedp.Do(ctx, chromedp.EmulateViewport(look.width, 844), chromedp.Navigate(home+p.ID+".html")); err != nil {
					t.Fatal(err)
				}
				if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](axe+";true")); err != nil {
					t.Fatal(err)
				}
			}
			if _, err := chromedp.Run(ctx, chromedp.Evaluate[bool](`document.getElementById("ground-`+ground+`").click(), true`)); err != nil {
				t.Fatal(err)
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
