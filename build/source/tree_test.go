package source

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const sample = "\ufeff# é\r\n" +
	"name = \"😀\"\r\n" +
	"list = [ [1, 2], # ]\r\n  [ ], [{a = [3]}] ]\r\n" +
	"[strength . \"wörk.ing\"]\r\n" +
	"\tneeds.of = { full = '''\r\n5''', x = {} }\r\n" +
	"[[step]]\r\n" +
	"[[step]]\r\n" +
	"amount = 5\r\n" +
	"[[step]]\r\n" +
	"[step.sub]\r\n" +
	"y = 2026-03-14 10:00:00\r\n"

func TestFind(t *testing.T) {
	tests := []struct {
		path       string
		has        bool
		line, col  int
		wantSource string
	}{
		{"", true, 1, 1, ""},
		{"name", true, 2, 8, `"😀"`},
		{"list", true, 3, 8, "[ [1, 2], # ]\r\n  [ ], [{a = [3]}] ]"},
		{"list[0]", true, 3, 10, "[1, 2]"},
		{"list[0][1]", true, 3, 14, "2"},
		{"list[1]", true, 4, 3, "[ ]"},
		{"list[2][0].a[0]", true, 4, 15, "3"},
		{"list[2][0]", true, 4, 9, "{a = [3]}"},
		{"strength", true, 5, 2, "strength"},
		{`strength."wörk.ing"`, true, 5, 13, `"wörk.ing"`},
		{`strength."w\u00f6rk.ing".needs`, true, 6, 2, "needs"},
		{`strength."wörk.ing".needs.of`, true, 6, 13, "{ full = '''\r\n5''', x = {} }"},
		{`strength."wörk.ing".needs.of.full`, true, 6, 22, "'''\r\n5'''"},
		{`strength."wörk.ing".needs.of.x`, true, 7, 11, "{}"},
		{"step", true, 8, 3, "step"},
		{"step[0]", true, 8, 3, "step"},
		{"step[1].amount", true, 10, 10, "5"},
		{"step[2]", true, 11, 3, "step"},
		{"step[2].sub.y", true, 13, 5, "2026-03-14 10:00:00"},

		{"nothing", false, 1, 1, ""},
		{"step[1].amuont", false, 9, 3, "step"},
		{"step[3]", false, 8, 3, "step"},
		{"step[-1]", false, 8, 3, "step"},
		{"step[x]", false, 8, 3, "step"},
		{"step[1", false, 8, 3, "step"},
		{"name.first", false, 2, 1, "name"},
		{"list[0][9]", false, 3, 10, "[1, 2]"},
		{`strength.wörk.ing`, false, 5, 2, "strength"},
		{`strength."open`, false, 5, 2, "strength"},
		{`strength."wörk.ing".keeps.tray`, false, 5, 13, `"wörk.ing"`},
		{"step[2]..sub", false, 11, 3, "step"},
	}
	tree, faults := Parse("f", []byte(sample))
	require.Empty(t, lines(faults))
	for _, tt := range tests {
		t.Run(tt.path, func(t *testing.T) {
			assert.Equal(t, tt.has, tree.Has(tt.path))
			span := tree.Find(tt.path)
			assert.Equal(t, "f", span.File)
			assert.Equal(t, [2]int{tt.line, tt.col}, [2]int{span.Start.Line, span.Start.Column})
			got := sample[span.Start.Offset:span.End.Offset]
			assert.Equal(t, tt.wantSource, got)
		})
	}
}

func TestFaultAt(t *testing.T) {
	tree, faults := Parse("f", []byte(sample))
	require.Empty(t, lines(faults))
	tests := []struct {
		name string
		got  Fault
		want string
		line string
	}{
		{"value", tree.FaultAt("name", "c", "w", "h"), "f:2:8: w [c]", `name = "😀"`},
		{"key", tree.FaultAtKey("name", "c", "w", "h"), "f:2:1: w [c]", `name = "😀"`},
		{"key in a row", tree.FaultAtKey("step[1].amount", "c", "w", "h"), "f:10:1: w [c]", "amount = 5"},
		{"item", tree.FaultAtKey("list[1]", "c", "w", "h"), "f:4:3: w [c]", "  [ ], [{a = [3]}] ]"},
		{"ancestor", tree.FaultAt("step[1].nothing", "c", "w", "h"), "f:9:3: w [c]", "[[step]]"},
		{"ancestor's key", tree.FaultAtKey("name.x", "c", "w", "h"), "f:2:1: w [c]", `name = "😀"`},
		{"file", tree.FaultAt("", "c", "w", "h"), "f:1:1: w [c]", "# é"},
		{"file's key", tree.FaultAtKey("nothing", "c", "w", "h"), "f:1:1: w [c]", "# é"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			assert.Equal(t, tt.want, tt.got.String())
			assert.Equal(t, tt.line, tt.got.Line)
			assert.Equal(t, "h", tt.got.Hint)
			assert.Equal(t, Error, tt.got.Severity)
		})
	}
}

func TestAnEmptyTreeHasPlaces(t *testing.T) {
	for name, src := range map[string]string{"nothing": "", "mark": "\ufeff", "not UTF-8": "\xff", "not TOML": "= ="} {
		t.Run(name, func(t *testing.T) {
			tree, _ := Parse("f", []byte(src))
			assert.True(t, tree.Has(""))
			assert.False(t, tree.Has("a"))
			assert.Equal(t, 1, tree.Find("a.b[2]").Start.Line)
			assert.Equal(t, "f:1:1: w [c]", tree.FaultAt("a", "c", "w", "").String())
		})
	}
}
