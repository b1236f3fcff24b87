package load

import (
	"encoding"
	"fmt"
	"io/fs"
	"os"
	"reflect"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/content"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
)

// placed is a declared value that carries its place.
type placed interface {
	Given() bool
	Where() figure.Where
}

// placesTest holds the places of one binder's values against its files.
type placesTest struct {
	t    *testing.T
	fsys fs.FS // the binder's folder
	in   *Loaded
	seen map[string]int // values by the kind of definition
}

// TestPlaces: the key that a value carries stands in its file, with the very text that
// the value was read from; what nobody has written has no place.
func TestPlaces(t *testing.T) {
	demo, err := fs.Sub(content.FS, "demo")
	require.NoError(t, err)
	seen := map[string]int{}
	for name, fsys := range map[string]fs.FS{
		"demo": demo, "film": os.DirFS("../../testdata/labs/film"),
		"print": os.DirFS("../../testdata/labs/print"), "school": os.DirFS("../../testdata/labs/school"),
	} {
		t.Run(name, func(t *testing.T) {
			in, err := Folder(fsys, content.FS)
			require.NoError(t, err)
			require.False(t, in.Faults.HasErrors(), "%v", in.Faults)
			p := placesTest{t, fsys, in, seen}
			l := reflect.ValueOf(in.Lab).Elem()
			for i := range l.NumField() {
				if field := l.Type().Field(i); field.IsExported() {
					p.walk(l.Field(i), field.Name, field.Name, "")
				}
			}
		})
	}
	kinds := []string{"Place", "Store", "Formats", "Chemicals", "Products", "Solutions", "Materials", "Processes", "Batches",
		"a changed step"}
	for _, kind := range kinds {
		require.Positive(t, seen[kind], "no value of %s carries a place", kind)
	}
}

// walk visits every value below v; around is the text of the value that read v
// together with others, as the turns of "6 in 30 s" read their time.
func (p placesTest) walk(v reflect.Value, kind, path, around string) {
	if v.CanInterface() {
		if value, ok := v.Interface().(placed); ok {
			p.check(v, value, kind, path, around)
		}
		if whole, ok := v.Interface().(interface{ Text() string }); ok && around == "" {
			around = whole.Text()
		}
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			p.walk(v.Elem(), kind, path, around)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if field := v.Type().Field(i); field.IsExported() {
				p.walk(v.Field(i), kind, path+"."+field.Name, around)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			p.walk(v.Index(i), kind, fmt.Sprintf("%s[%d]", path, i), around)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			p.walk(v.MapIndex(k), kind, path+"."+k.String(), around)
		}
	}
}

func (p placesTest) check(v reflect.Value, value placed, kind, path, around string) {
	at := value.Where()
	if !value.Given() {
		require.Empty(p.t, at, "%s: nobody has written it, and it has a place", path)
		return
	}
	p.seen[kind]++
	if strings.HasPrefix(at.Key, "change.") && strings.Contains(path, ".Steps[") {
		p.seen["a changed step"]++
	}
	require.NotEmpty(p.t, at.File, "%s has no place", path)
	tree := p.in.trees[at.File]
	require.NotNil(p.t, tree, "%s: no file %s was read", path, at.File)
	require.True(p.t, tree.Has(at.Key), "%s: %s has no key %s", path, at.File, at.Key)
	text := p.text(at)
	if text == around {
		return // it was read together with the value around it
	}
	// A value of the same type, read from that text, says the same.
	again := reflect.New(v.Type())
	switch into := again.Interface().(type) {
	case interface{ UnmarshalTOML(any) error }:
		require.Equal(p.t, fmt.Sprint(number(v)), text, "%s, at %s", path, at.Key)
	case encoding.TextUnmarshaler:
		require.NoError(p.t, into.UnmarshalText([]byte(text)), "%s, at %s", path, at.Key)
		says := func(v reflect.Value) string { return v.Interface().(interface{ Text() string }).Text() }
		require.Equal(p.t, says(v), says(again.Elem()), "%s, at %s", path, at.Key)
	default:
		p.t.Fatalf("%s: %s is not read from a file", path, v.Type())
	}
}

// number is what a value that is no text in a file says: a count, a number or a day;
// of words, the words.
func number(v reflect.Value) any {
	switch said := v.Interface().(type) {
	case lab.SaidNumber:
		return said.N
	case lab.SaidText:
		return said.Text
	}
	return v.Interface()
}

// text is what stands at a place, without its quotes.
func (p placesTest) text(at figure.Where) string {
	b, err := fs.ReadFile(p.fsys, at.File)
	if err != nil {
		b, err = fs.ReadFile(content.FS, at.File)
	}
	require.NoError(p.t, err)
	span := p.in.trees[at.File].Find(at.Key)
	raw := string(b[span.Start.Offset:span.End.Offset])
	if text, err := strconv.Unquote(raw); err == nil {
		return text
	}
	return raw
}

// TestOrigins: the origin that a value carries is the word of its file for that key,
// for the table around it, or for all; of a format, its own. A value taken over from
// another process brings its place and origin along, and a default of the program
// stands nowhere.
func TestOrigins(t *testing.T) {
	file := func(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }
	in, err := Folder(fstest.MapFS{
		"lab.toml":     file("[lab]\nname = \"lab\"\n[house]\ntime_step = \"10 s\"\n[origin]\n\"house.time_step\" = \"measured\"\n"),
		"sources.toml": file("[sheet]\ntitle = \"a sheet\"\nrank = \"supplier\"\n"),
		"processes/first.toml": file("name = \"first\"\nbase = \"film\"\n[[step]]\nid = \"soak\"\ndo = \"soak\"\n" +
			"time = \"1:00\"\nleast = \"30 s\"\n[origin]\nall = \"sheet\"\n\"step[0].least\" = \"estimate\"\n"),
		"processes/heir.toml": file("name = \"heir\"\nlike = \"first\"\n[change.soak]\ntime = \"2:00\"\n" +
			"[origin]\n\"change.soak\" = \"memory\"\n"),
		"materials/paper.toml": file("name = \"paper\"\nbase = \"fibre\"\nformats = [\"own\"]\n[format.own]\n" +
			"area = \"10 cm2\"\norigin = \"handbook\"\n[origin]\nall = \"measured\"\n"),
	}, content.FS)
	require.NoError(t, err)
	require.False(t, in.Faults.HasErrors(), "%v", in.Faults)
	l := in.Lab
	process := func(id string) lab.ProcessStep {
		for _, p := range l.Processes {
			if p.ID == id {
				return p.Steps[0]
			}
		}
		t.Fatalf("no process %s", id)
		return lab.ProcessStep{}
	}
	type told interface {
		Where() figure.Where
		By() figure.Origin
		Written() bool
	}
	house := l.Place.House.Filled()
	for _, c := range []struct {
		name  string
		value told
		file  string
		key   string
		by    figure.Origin
	}{
		{"a key with a word of its own", house.TimeStep, "lab.toml", "house.time_step", figure.Measured},
		{"a default of the program", house.SameTime, "", "", figure.Default},
		{"the word for all, of a source", process("first").Time.Fixed, "processes/first.toml", "step[0].time", figure.Supplier},
		{"what another process changes", process("heir").Time.Fixed, "processes/heir.toml", "change.soak.time", figure.Memory},
		{"what it takes over", process("heir").Least, "processes/first.toml", "step[0].least", figure.Estimate},
		{"a format's own word", l.Material("paper").Format["own"].Area, "materials/paper.toml", "format.own.area", figure.Handbook},
	} {
		require.Equal(t, figure.Where{File: c.file, Key: c.key}, c.value.Where(), c.name)
		require.Equal(t, c.by, c.value.By(), c.name)
		require.Equal(t, c.file != "", c.value.Written(), c.name)
	}
	require.Equal(t, figure.Default, house.SameTime.Figure("same time").Origin())
}
