package build_test

import (
	"os"
	"runtime/debug"
	"testing"

	"wetside/testdata/browser"
)

// TestMain collects what is no longer used less often: the tests make hundreds of binders,
// and half of their time would go into it.
func TestMain(m *testing.M) {
	debug.SetGCPercent(400)
	os.Exit(browser.Run(m))
}
