package theme

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/themes"
)

func TestStandard(t *testing.T) {
	th, err := Open(themes.FS)
	if err != nil {
		t.Fatal(err)
	}
	if len(th.Fonts) != 2 || len(th.Script) == 0 || len(th.Style) == 0 {
		t.Error("the standard theme lacks fonts, script or style")
	}
	for _, name := range []string{"M002", "M004", "M009", "M010", "M011", "M013", "M016", "M017", "E003", "E011", "E012", "GHS01", "GHS02", "GHS03", "GHS04", "GHS05", "GHS06", "GHS07", "GHS08", "GHS09", "plate-developer", "plate-other"} {
		if th.Symbols[name].Body == "" {
			t.Errorf("there is no symbol %s", name)
		}
	}
	if strings.Contains(string(th.Style), "#12345G") || strings.Count(string(th.Style), "{") != strings.Count(string(th.Style), "}") {
		t.Error("the stylesheet is broken")
	}
}

func TestFaults(t *testing.T) {
	for want, own := range map[string]fstest.MapFS{
		"face poster leaves out never":   {"faces.toml": {Data: []byte("[[face]]\nname='poster'\nmedium='paper'\nsize=[420,594]\nmargin=[1,1,1,1]\nparts=['key','before','do','foot']\n")}},
		"did you mean blocks/steps.html": {"blocks/step.html": {Data: []byte("x")}},
		"is not a key of a face":         {"faces.toml": {Data: []byte("[[face]]\nname='x'\ncolour='red'\n")}},
		"is not a kind of block":         {"faces.toml": {Data: []byte("[[face]]\nname='x'\nmedium='site'\nparts=['before','never','foot']\nleave=['stepz']\n")}},
		"leaves out cautions or holes":   {"faces.toml": {Data: []byte("[[face]]\nname='x'\nmedium='site'\nparts=['before','never','foot']\nleave=['cautions']\n")}},
		"blocks/para.html:1":             {"blocks/para.html": {Data: []byte("{{.Say")}},
		"ends in a non-text context":     {"blocks/para.html": {Data: []byte("<p class=\"{{.B}}")}},
		"is not a number by which":       {"spacing.toml": spacing("text = 1.3", "text = 1.3\ntexts = 1.3")},
		"the number line.text is not":    {"spacing.toml": spacing("text = 1.3 ", "# ")},
		"line.text is no length from 0":  {"spacing.toml": spacing("text = 1.3", "text = -1.3")},
		"em.unit is no length":           {"spacing.toml": spacing("unit = [0, 1.1, 1.5, 2.1, 2.7, 3.3, 3.9, 4.4, 5]", "unit = []")},
		"spacing.toml: toml:":            {"spacing.toml": spacing("[line]", "[line")},
		"made of plain shapes":           {"symbols/M009.svg": {Data: []byte(`<svg viewBox="0 0 1 1"><pattern/></svg>`)}},
	} {
		_, err := Open(themes.FS, own)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("want a fault with %q, got %v", want, err)
		}
	}
}

func TestWidths(t *testing.T) {
	w, err := readWidths([]byte("# x\nU+0041 600\nU+00D7 500\n"))
	if err != nil {
		t.Fatal(err)
	}
	if got := w.Of("A×?", 10); got != 17 {
		t.Errorf("got %v", got)
	}
	if _, err := readWidths([]byte("A 600")); err == nil {
		t.Error("a broken line is read")
	}
}

// spacing is the theme's spacing with one thing changed.
func spacing(old, now string) *fstest.MapFile {
	b, err := fs.ReadFile(themes.FS, spacingFile)
	if err != nil || !strings.Contains(string(b), old) {
		panic("the spacing has no " + old)
	}
	return &fstest.MapFile{Data: []byte(strings.Replace(string(b), old, now, 1))}
}

// TestSpacedRoom: what a face says nothing of is as the theme's spacing has it, in the
// stylesheet's root too; what it says is its own.
func TestSpacedRoom(t *testing.T) {
	th, err := Open(themes.FS)
	require.NoError(t, err)
	bare := Face{Spacing: th.Spacing}
	require.Equal(t, th.Spacing.Room, bare.Spaced())
	for _, l := range roomLengths {
		own := bare
		*l.of(&own.Room) = 77
		want := th.Spacing.Room
		*l.of(&want) = 77
		require.Equal(t, want, own.Spaced(), l.name)
		require.Positive(t, *l.of(&th.Spacing.Room), l.name)
		require.Contains(t, string(th.Style), ";--"+l.name+":"+mm(*l.of(&th.Spacing.Room))+l.unit, l.name)
		require.Contains(t, FaceRules([]Face{{Name: "own", Room: own.Room, Spacing: th.Spacing}}), "--"+l.name+":")
	}
}
