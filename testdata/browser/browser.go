// Package browser is the browser in which tests look at pages, and the other programs that
// show what stands on paper.
package browser

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
)

// Program finds a program that a test needs. Where it is absent the test skips, or
// fails if nothing may be skipped.
func Program(t testing.TB, names ...string) string {
	t.Helper()
	for _, name := range names {
		if p, err := exec.LookPath(name); name != "" && err == nil {
			return p
		}
	}
	why := fmt.Sprintf("there is no %s, so what %s looks at is unchecked here; .ci/run installs it, and WETSIDE_BROWSER names another browser", names[len(names)-1], t.Name())
	if os.Getenv("WETSIDE_BROWSER_TESTS") == "must" {
		t.Fatal(why)
	}
	t.Skip(why)
	return ""
}

// one is the browser of all tests of a package, which ends with them.
var one = struct {
	sync.Mutex
	ctx context.Context
	end func()
}{end: func() {}}

// Run runs the tests of a package, for its TestMain, and ends their browser.
func Run(m *testing.M) (status int) {
	defer func() { one.end() }()
	return m.Run()
}

// Open is a browser for a test, which has seen no page, or skips the test where there
// is none: a profile of its own in the one process that all tests of a package share.
func Open(t testing.TB) context.Context {
	t.Helper()
	// The first is the browser without its windows, which takes half the time: same engine, same print.
	found := Program(t, os.Getenv("WETSIDE_BROWSER"), "chromium-headless-shell", "chromium-browser", "google-chrome", "chromium")
	one.Lock()
	defer one.Unlock()
	if one.ctx == nil {
		profile, err := os.MkdirTemp("", "browser")
		if err != nil {
			t.Fatal(err)
		}
		opts := append([]chromedp.ExecAllocatorOption{}, chromedp.DefaultExecAllocatorOptions[:]...)
		opts = append(opts,
			chromedp.ExecPath(found), chromedp.NoSandbox, chromedp.DisableGPU, chromedp.UserDataDir(profile),
			chromedp.Flag("disable-quic", true), chromedp.Flag("no-first-run", true), chromedp.Flag("disable-background-networking", true),
			chromedp.Flag("disable-component-update", true), chromedp.Flag("disable-sync", true),
			chromedp.Flag("font-render-hinting", "none"), // letters as wide as the printer sets them
		)
		allocated, stop := chromedp.NewExecAllocator(context.Background(), opts...)
		ctx, cancel := chromedp.NewContext(allocated)
		one.end = func() {
			cancel()
			stop()
			os.RemoveAll(profile)
		}
		if err := chromedp.Do(ctx); err != nil {
			t.Fatal(err)
		}
		one.ctx = ctx
	}
	ctx, cancel := chromedp.NewContext(one.ctx, chromedp.WithNewBrowserContext())
	t.Cleanup(cancel)
	ctx, cancel = context.WithTimeout(ctx, 9*time.Minute) // against a browser that hangs, not a bound on speed
	t.Cleanup(cancel)
	if err := chromedp.Do(ctx); err != nil {
		t.Fatal(err)
	}
	return ctx
}
