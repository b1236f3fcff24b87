package source

import (
	"io"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tricky are sources that have tripped parsers before.
var tricky = []string{
	"", "\ufeff", sample, "a", "=", "[", "[[", "]", "{", "\"", "'''", "\"\"\"", "\r", "\x00", "#", "# \x01", "\xff",
	"a = 1\na = 2", "x={a=1,a=2}", "x={a=1,a.b=2}", "a.b.c=1\na.b=2", "a.x=1\n[a]\ny=2", "[a.b]\n[a]\nb.y=2",
	"[[a]]\n[a]", "[a]\n[[a]]", "a=[1]\n[[a]]\n[a.b]\nc=1", "[[a.b]]\n[a]\n[[a.b]]", "[a.b]\n[[a]]",
	"a = \"é😀\" x", "a = 5 g\nb = [5 g]\nc = {d = 5 g", "a = [[[[[[1],[2,]]]]", "a = {b = {c = {}}}\n[a.d]",
	"a = 2026-03-14\nb = 11:00\nc = 2026-03-14 11:00:00.5Z\nd = 5:00", "a = +inf\nb = -nan\nc = 0x_1\nd = 1e5\ne = 1e999",
	"a = 9223372036854775808", "a = \"\\u00e9\\U0001F600\\e\\x41\"", "a = \"\\uD800\"", "a = \"\"\"\\\n  x\"\"\"\"\"", "\"\".\"\" = 1",
	"\"a.b\".'c d' = 1\n\"\\u0061\" = 2", "a = [ # x\n1, # ]\n]", "step = [\n{a = 1}\n[control]\nb = 2", "[a\nb = 1\n[c]\nd = x",
	"\na = {\n b = 1, # c\n}\n", "a . b = 1\n[ a . c ]\n", "title = 1\nsmall = 300\npair = [1]\n[[step]]\namount = \"5 gm\"\n[step]\n",
	"keeps = {list = []}", "keeps = {summer = \"bad\", list = [1, \"bad\"]}\n[tree]\nkids = [{next = {label = 1}}]", "[strength.\"x y\"]\nneeds = 5.0\nkeeps = 1",
	strings.Repeat("[", 100), strings.Repeat("a.", 100) + "a=1", strings.Repeat("a={", 100), strings.Repeat("a = x\n", 30),
}

// checkFaults demands that every fault has a place inside the file and can be
// printed without a control character.
func checkFaults(t *testing.T, src string, faults Faults) {
	t.Helper()
	for _, f := range faults {
		checkSpan(t, src, f.Span)
		require.NotEmpty(t, f.What)
		require.NotEmpty(t, f.Code)
	}
	var b strings.Builder
	require.NoError(t, faults.WriteText(&b))
	for _, r := range b.String() {
		require.False(t, r < ' ' && r != '\n' || r == 0x7f, "%q", b.String())
	}
	require.NoError(t, faults.WriteJSON(io.Discard))
}

func checkSpan(t *testing.T, src string, s Span) {
	t.Helper()
	last := strings.Count(src, "\n") + 1
	for _, p := range []Pos{s.Start, s.End} {
		require.True(t, p.Line >= 1 && p.Line <= last, "line %d of %d", p.Line, last)
		require.True(t, p.Column >= 1 && p.Column <= len(src)+1, "column %d", p.Column)
		require.True(t, p.Offset >= 0 && p.Offset <= len(src), "offset %d", p.Offset)
	}
	require.LessOrEqual(t, s.Start.Offset, s.End.Offset)
}

func FuzzParse(f *testing.F) {
	for _, src := range tricky {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		tree, faults := Parse("f", []byte(src))
		require.NotNil(t, tree)
		checkFaults(t, src, faults)
		checkNode(t, src, tree, tree.root)
		if _, deep := outline([]byte(src)); deep >= 0 || len(faults) > 0 && faults[0].Code == CodeEncoding {
			return // not for the decoder's eyes
		}
		var m map[string]any
		md, err := toml.Decode(src, &m)
		if err != nil {
			require.NotEmpty(t, faults, "the decoder says: %v", err)
			return
		}
		for _, f := range faults {
			assert.Equal(t, CodeRepeated, f.Code, "the decoder accepts it, but: %s", f)
		}
		if len(faults) == 0 {
			for _, key := range md.Keys() {
				assert.True(t, holds([]*node{tree.root}, key), "%q", []string(key))
			}
		}
	})
}

// checkNode demands that every place of the tree lies inside the file.
func checkNode(t *testing.T, src string, tree *Tree, n *node) {
	t.Helper()
	checkSpan(t, src, tree.span(n.key))
	checkSpan(t, src, tree.span(n.val))
	require.Len(t, n.fields, len(n.names))
	for _, name := range n.names {
		checkNode(t, src, tree, n.fields[name])
	}
	for _, group := range [][]*node{n.items, n.again} {
		for _, item := range group {
			checkNode(t, src, tree, item)
		}
	}
}

// holds reports whether some table, or some row of a list, has the key.
func holds(tables []*node, key []string) bool {
	for _, n := range tables {
		switch {
		case n.kind == isList:
			if holds(n.items, key) {
				return true
			}
		case len(key) == 0:
			return true
		case n.fields[key[0]] != nil && (len(key) == 1 || holds([]*node{n.fields[key[0]]}, key[1:])):
			return true
		}
	}
	return false
}

func FuzzDecode(f *testing.F) {
	for _, src := range tricky {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src string) {
		tree, syntax := Parse("f", []byte(src))
		var got document
		faults := tree.Decode(&got)
		checkFaults(t, src, faults)
		if len(syntax)+len(faults) > 0 {
			return
		}
		var want document
		md, err := toml.Decode(src, &want)
		require.NoError(t, err)
		require.Empty(t, undecoded(md), "keys that nobody reads")
	})
}

// undecoded lists the keys the decoder passed over, except those below a field
// that takes anything.
func undecoded(md toml.MetaData) []string {
	var keys []string
	for _, key := range md.Undecoded() {
		if key[0] != "any" && key[0] != "keeps" {
			keys = append(keys, key.String())
		}
	}
	return keys
}

func FuzzFind(f *testing.F) {
	for _, path := range []string{"", "a", "a.b", "step[0]", "step[1].amount", `strength."wörk.ing".needs`, "[", "[0]", "]", `"`, `""`, `"\xff"`, ".", "..", "a[", "list[2][0].a[0]", "step[99999999999999999999]"} {
		f.Add(sample, path)
		f.Add("a = [[1], {b = 2}]", path)
	}
	f.Fuzz(func(t *testing.T, src, path string) {
		tree, _ := Parse("f", []byte(src))
		checkSpan(t, src, tree.Find(path))
		checkFaults(t, src, Faults{tree.FaultAt(path, "c", "w", path), tree.FaultAtKey(path, "c", "w", path)})
		tree.Has(path)
	})
}
