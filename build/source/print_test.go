package source

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func at(line, column, width int, text string) Fault {
	return Fault{
		Span: Span{"solutions/stop.toml", Pos{Line: line, Column: column}, Pos{Line: line, Column: column + width}},
		Code: "quantity", What: `"6 gm" is not a mass`, Line: text,
	}
}

func TestWriteText(t *testing.T) {
	const first = `solutions/stop.toml:11:10: "6 gm" is not a mass [quantity]` + "\n"
	hinted := at(11, 10, 6, `amount = "6 gm"`)
	hinted.Hint = `write the unit as g, for example "6 g"`
	warning := at(11, 10, 6, `amount = "6 gm"`)
	warning.Severity = Warning
	lines := at(11, 5, 0, "a = [")
	lines.Span.End = Pos{Line: 13, Column: 2}
	whole := Fault{Span: Span{File: "lab.toml"}, Code: "size", What: "too large"}
	hostile := Fault{Span: Span{"a\x1b[31m.toml", Pos{Line: 1, Column: 3}, Pos{Line: 1, Column: 4}}, Code: "x",
		What: "what\r\n\x07", Hint: "hint\u202e\u0085", Line: "\x1bA\x7f\u2066"}
	tests := []struct {
		name   string
		faults Faults
		want   string
	}{
		{"none", nil, ""},
		{"as the manual shows it", Faults{hinted}, first + `   11 | amount = "6 gm"
      |          ^^^^^^
   hint: write the unit as g, for example "6 g"
1 fault
`},
		{"faults and a warning", Faults{hinted, hinted, warning},
			strings.Repeat(first+"   11 | amount = \"6 gm\"\n      |          ^^^^^^\n   hint: write the unit as g, for example \"6 g\"\n", 2) +
				`solutions/stop.toml:11:10: warning: "6 gm" is not a mass [quantity]` + "\n   11 | amount = \"6 gm\"\n      |          ^^^^^^\n2 faults, 1 warning\n"},
		{"only warnings", Faults{warning, warning},
			strings.Repeat(`solutions/stop.toml:11:10: warning: "6 gm" is not a mass [quantity]`+"\n   11 | amount = \"6 gm\"\n      |          ^^^^^^\n", 2) + "2 warnings\n"},
		{"tabs", Faults{at(11, 4, 1, "\ta\tb")}, strings.Replace(first, ":10", ":4", 1) + "   11 |  a b\n      |    ^\n1 fault\n"},
		{"wide runes before", Faults{at(11, 4, 1, "日本 b")}, strings.Replace(first, ":10", ":4", 1) + "   11 | 日本 b\n      |      ^\n1 fault\n"},
		{"wide runes below the carets", Faults{at(11, 2, 2, "a日本")}, strings.Replace(first, ":10", ":2", 1) + "   11 | a日本\n      |  ^^^^\n1 fault\n"},
		{"combining runes", Faults{at(11, 6, 1, "e\u0301o\u0308 x")}, strings.Replace(first, ":10", ":6", 1) + "   11 | e\u0301o\u0308 x\n      |    ^\n1 fault\n"},
		{"emoji", Faults{at(11, 3, 1, "😀 x")}, strings.Replace(first, ":10", ":3", 1) + "   11 | 😀 x\n      |    ^\n1 fault\n"},
		{"at the end of the line", Faults{at(11, 4, 0, "a =")}, strings.Replace(first, ":10", ":4", 1) + "   11 | a =\n      |    ^\n1 fault\n"},
		{"beyond the line", Faults{at(11, 99, 5, "a =")}, strings.Replace(first, ":10", ":99", 1) + "   11 | a =\n      |    ^\n1 fault\n"},
		{"over several lines", Faults{lines}, strings.Replace(first, ":10", ":5", 1) + "   11 | a = [\n      |     ^\n1 fault\n"},
		{"an empty line", Faults{at(11, 1, 0, " ")}, strings.Replace(first, ":10", ":1", 1) + "1 fault\n"},
		{"a whole file", Faults{whole}, "lab.toml: too large [size]\n1 fault\n"},
		{"a large line number", Faults{at(123456, 1, 1, "x")}, `solutions/stop.toml:123456:1: "6 gm" is not a mass [quantity]` + "\n123456 | x\n       | ^\n1 fault\n"},
		{"bytes that are not UTF-8", Faults{at(11, 3, 1, "a \xb0\xe9 b")}, strings.Replace(first, ":10", ":3", 1) + "   11 | a �� b\n      |   ^\n1 fault\n"},
		{"what drives a terminal", Faults{hostile}, "a␛[31m.toml:1:3: what␍␊␇ [x]\n    1 | ␛A␡�\n      |   ^\n   hint: hint��\n1 fault\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var b strings.Builder
			require.NoError(t, tt.faults.WriteText(&b))
			assert.Equal(t, tt.want, b.String())
		})
	}
}

func TestLongLinesAreCut(t *testing.T) {
	line := []rune(strings.Repeat("é", 400))
	tests := []struct {
		name                        string
		column, width               int
		left, right                 bool
		wantCaretsOn, wantCaretsFor int
	}{
		{"at the start", 3, 4, false, true, 2, 4},
		{"in the middle", 200, 4, true, true, 53, 4},
		{"at the end", 400, 1, true, false, 158, 1},
		{"past the window", 200, 300, true, true, 53, 106},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var b strings.Builder
			require.NoError(t, Faults{at(1, tt.column, tt.width, string(line))}.WriteText(&b))
			printed := strings.Split(b.String(), "\n")
			echo, carets := strings.TrimPrefix(printed[1], "    1 | "), strings.TrimPrefix(printed[2], "      | ")
			assert.LessOrEqual(t, len([]rune(echo)), window)
			assert.Equal(t, tt.left, strings.HasPrefix(echo, "…"), "left mark")
			assert.Equal(t, tt.right, strings.HasSuffix(echo, "…"), "right mark")
			assert.Equal(t, strings.Repeat(" ", tt.wantCaretsOn)+strings.Repeat("^", tt.wantCaretsFor), carets)
		})
	}
}

func TestWriteJSON(t *testing.T) {
	warning := at(2, 3, 1, "x")
	warning.Severity, warning.Cards, warning.Hint = Warning, []string{"mix/stop"}, "a <b> \x1b\xff"
	var b strings.Builder
	require.NoError(t, Faults{at(1, 2, 1, "x"), warning}.WriteJSON(&b))
	assert.JSONEq(t, `[
		{"file": "solutions/stop.toml", "line": 1, "column": 2, "code": "quantity", "what": "\"6 gm\" is not a mass", "hint": "", "severity": "error", "cards": []},
		{"file": "solutions/stop.toml", "line": 2, "column": 3, "code": "quantity", "what": "\"6 gm\" is not a mass", "hint": "a <b> \u001b\ufffd", "severity": "warning", "cards": ["mix/stop"]}
	]`, b.String())
	assert.NotContains(t, b.String(), "\x1b")

	b.Reset()
	require.NoError(t, Faults(nil).WriteJSON(&b))
	assert.Equal(t, "[]\n", b.String())
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errors.New("disk full") }

func TestWriteErrorsAreReturned(t *testing.T) {
	f := Faults{at(1, 1, 1, "x")}
	assert.EqualError(t, f.WriteText(broken{}), "disk full")
	assert.EqualError(t, f.WriteJSON(broken{}), "disk full")
}

func TestSortAndCount(t *testing.T) {
	fault := func(file string, line, column int, code, what string, s Severity) Fault {
		return Fault{Span: Span{File: file, Start: Pos{Line: line, Column: column}}, Code: code, What: what, Severity: s}
	}
	sorted := Faults{
		fault("a", 1, 2, "key", "x", Error),
		fault("a", 2, 1, "key", "x", Warning),
		fault("a", 10, 1, "key", "x", Error),
		fault("a", 10, 1, "key", "y", Error),
		fault("a", 10, 1, "shape", "a", Error),
		fault("b", 1, 1, "key", "x", Error),
	}
	mixed := Faults{sorted[4], sorted[5], sorted[1], sorted[3], sorted[0], sorted[2]}
	mixed.Sort()
	assert.Equal(t, sorted, mixed)
	assert.Equal(t, 5, mixed.Errors())
	assert.Equal(t, 1, mixed.Warnings())
	assert.True(t, mixed.HasErrors())
	assert.False(t, Faults{sorted[1]}.HasErrors())
	assert.False(t, Faults(nil).HasErrors())
}

// TestManyFaultsAreCounted: a hundred are written, the rest counted.
func TestManyFaultsAreCounted(t *testing.T) {
	for n, want := range map[int]string{100: "100 faults\n", 101: "101 faults\n", 102: "and 2 more: mend these first, and look again\n102 faults\n"} {
		var many Faults
		for range n {
			many = append(many, Fault{Span: Span{File: "a.toml", Start: Pos{Line: 1, Column: 1}}, Code: "key", What: "one"})
		}
		var b strings.Builder
		require.NoError(t, many.WriteText(&b))
		require.Equal(t, min(n, 101), strings.Count(b.String(), "a.toml:1:1: one")+map[bool]int{true: 1, false: 0}[n == 102])
		require.True(t, strings.HasSuffix(b.String(), want), n)
	}
}
