package build_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/testdata/binders"
)

var hashedName = regexp.MustCompile(`assets/[^"' >]+`)

// TestGoldenCard holds one whole card, that of the binder of ten lines, against
// a page that a person has read: one tag a line. WETSIDE_GOLDEN=write makes it
// anew; read it before it is kept.
func TestGoldenCard(t *testing.T) {
	r, err := build.Bind(options(binders.Read(t, "../testdata/binders/ten-lines.txtar")))
	require.NoError(t, err)
	require.Empty(t, r.Faults)
	got := ""
	for _, f := range r.Files {
		if f.Path == "mix/stop.html" {
			got = readable(string(f.Bytes))
		}
	}
	require.NotEmpty(t, got)
	name := filepath.Join("..", "testdata", "golden", "mix-stop.html")
	if os.Getenv("WETSIDE_GOLDEN") == "write" {
		require.NoError(t, os.MkdirAll(filepath.Dir(name), 0o755))
		require.NoError(t, os.WriteFile(name, []byte(got), 0o644))
	}
	want, err := os.ReadFile(name)
	require.NoError(t, err)
	require.Equal(t, string(want), got)
}

// readable puts every tag on a line of its own, leaves drawings out and takes
// the hashes of assets away.
func readable(html string) string {
	html = regexp.MustCompile(`(?s)<svg.*?</svg>`).ReplaceAllString(html, "<svg/>")
	html = hashedName.ReplaceAllString(html, "assets/…")
	html = regexp.MustCompile(`<([a-z!])`).ReplaceAllString(html, "\n<$1")
	return strings.TrimSpace(regexp.MustCompile(`\n\s*\n`).ReplaceAllString(html, "\n")) + "\n"
}
