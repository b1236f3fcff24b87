package source

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// lines returns the faults as their first printed lines, with the hints.
func lines(f Faults) []string {
	out := []string{}
	for _, one := range f {
		s := one.String()
		if one.Hint != "" {
			s += " // " + one.Hint
		}
		out = append(out, s)
	}
	return out
}

func TestParseAccepts(t *testing.T) {
	tests := map[string]string{
		"nothing":                   "",
		"only a comment":            "# nothing yet",
		"byte order mark":           "\ufeffname = 1\n",
		"only a byte order mark":    "\ufeff",
		"carriage returns":          "name = 1\r\n\r\n[a]\r\nb = \"\"\"x\r\ny\"\"\"\r\n",
		"supertable after its part": "[a.b]\nx = 1\n[a]\ny = 2\n",
		"subtable of a dotted one":  "fruit.apple.red = true\n[fruit.apple.taste]\nsweet = true\n",
		"tables in rows":            "[[a]]\n[a.b]\nx = 1\n[[a]]\n[a.b]\nx = 1\n[[a.c]]\n[[a.c]]\n",
		"dotted keys in rows":       "a = [{b.c = 1, b.d = 2}, {b.c = 1}]\n",
		"brackets in texts":         "a = \"[[[{{{\" # [[[{{{\nb = '''\n[[[[\n'''\nc = [\n\"]\", # ]\n\"x\"]\n",
		"quotes in texts":           "a = \"\\\"[\"\nb = \"\"\"\"\"two\"\"\"\"\"\nc = ''''one''''\n",
		"same key in other tables":  "a = 1\n[x]\na = 1\n[y]\na = 1\n",
		"empty names":               "\"\" = 1\n[x]\n\"\".\"\" = 2\n",
		"rows after a plain value":  "x = 1\n[[step]]\n[[step]]\n",
		"64 lists":                  "a = " + strings.Repeat("[", 64) + strings.Repeat("]", 64),
	}
	for name, src := range tests {
		t.Run(name, func(t *testing.T) {
			tree, faults := Parse("f.toml", []byte(src))
			assert.Empty(t, lines(faults))
			require.NotNil(t, tree)
			var into map[string]any
			assert.Empty(t, lines(tree.Decode(&into)))
		})
	}
}

func TestParseFaults(t *testing.T) {
	const (
		noQuote = `close it on the same line; a text of several lines stands between """ and """`
		aKey    = "write name = value; a name of other letters than a-z, 0-9, - and _ stands in quotes"
		header  = "a table is written [name] or [name.name], a row of a list [[name]]"
		escape  = `write \\ for a backslash, or put the text between single quotes`
		inner   = `a quote inside a text is written \", or the text stands between single quotes`
		point   = "write 0.5, not .5; and 5.0 or 5, not 5."
	)
	tests := []struct {
		name, src string
		want      []string
	}{
		{"latin-1", "a = 1\nb = \"caf\xe9\"\n", []string{"2:9: the byte 0xe9 is not UTF-8 [encoding] // save the file as UTF-8"}},
		{"latin-1 after runes", "b = \"é😀\xb0C\"\n", []string{"1:8: the byte 0xb0 is not UTF-8 [encoding] // save the file as UTF-8"}},
		{"utf-16 with a mark", "\xff\xfea\x00", []string{"1:1: the byte 0xff is not UTF-8 [encoding] // save the file as UTF-8"}},
		{"utf-16 without", "a\x00=\x001\x00\n\x00b\x00=\x00\n\x00", []string{"1:1: the file holds zero bytes, as UTF-16 does [encoding] // save the file as UTF-8"}},
		{"zero byte", "name = \"x\"\nb = \"y\x00\"\n", []string{"2:7: the control character U+0000 is not allowed in TOML [syntax] // delete it"}},
		{"bell in a comment", "a = 1 # \x07", []string{"1:9: the control character U+0007 is not allowed in TOML [syntax] // delete it"}},
		{"carriage return alone", "a = 1\rb = 2\n", []string{"1:6: the control character U+000D is not allowed in TOML [syntax] // delete it"}},
		{"too large", strings.Repeat("#", maxSize+1), []string{"1:1: the file has 1048577 bytes; at most 1048576 are read [size] // a definition is a few kilobytes: is this the right file?"}},
		{"nested lists", "a = " + strings.Repeat("[", 10000), []string{"1:69: tables and lists are nested more than 64 levels or 1024 letters of names deep [depth]"}},
		{"nested tables", strings.Repeat("{a=", 10000), []string{"1:192: tables and lists are nested more than 64 levels or 1024 letters of names deep [depth]"}},
		{"dotted key", "a = 1\n" + strings.Repeat("a.", 70) + "a = 1", []string{"2:143: tables and lists are nested more than 64 levels or 1024 letters of names deep [depth]"}},
		{"dotted header", "[" + strings.Repeat("a.", 70) + "a]", []string{"1:1: tables and lists are nested more than 64 levels or 1024 letters of names deep [depth]"}},
		{"long names", "[\"" + strings.Repeat("x", 900) + "\"]\n\"" + strings.Repeat("y", 200) + "\" = 1", []string{"2:204: tables and lists are nested more than 64 levels or 1024 letters of names deep [depth]"}},

		{"repeated key", "a = 1\nb = 2\na = 3\na = 4", []string{
			`3:1: "a" is given again; it was first given at line 1, column 1 [repeated] // keep one of the two`,
			`4:1: "a" is given again; it was first given at line 1, column 1 [repeated] // keep one of the two`}},
		{"repeated in inline tables", "x = {a = 1, a = 2}\ny = [{b = 1}, {b = 1, b = 2}]", []string{
			`1:13: "a" is given again; it was first given at line 1, column 6 [repeated] // keep one of the two`,
			`2:23: "b" is given again; it was first given at line 2, column 16 [repeated] // keep one of the two`}},
		{"repeated in a row", "[[s]]\na = 1\n[[s]]\na = 1\n'a' = 2", []string{
			`5:1: "a" is given again; it was first given at line 4, column 1 [repeated] // keep one of the two`}},
		{"repeated table", "[a.b]\nx = 1\n[c]\n[a.b]\nx = 1", []string{
			`4:4: [a.b] is given again; it was first given at line 1, column 4 [repeated] // gather its keys in one place`}},
		{"a table over a dotted one", "a.x = 1\n[a]\ny = 2", []string{
			`2:2: [a] is given again; it was first given at line 1, column 1 [repeated] // gather its keys in one place`}},
		{"a dotted key into a table", "[a.b]\nx = 1\n[a]\nb.y = 2", []string{
			`4:1: "b" is given again; it was first given at line 1, column 4 [repeated] // gather its keys in one place`}},
		{"a dotted key lost by the decoder", "a.b.c = 1\na.b = 2", []string{
			`2:3: "b" is given again; it was first given at line 1, column 3 [repeated] // keep one of the two`}},
		{"a table over a value", "keeps = \"1 day\"\n[keeps]\n[keeps.full]", []string{
			`2:2: [keeps] is given again; it was first given at line 1, column 1 [repeated] // gather its keys in one place`,
			`3:2: "keeps" is given again; it was first given at line 1, column 1 [repeated] // it has a value there, so it cannot have keys of its own`}},
		{"a dotted key over a value", "a = 1\na.b = 2", []string{
			`2:1: "a" is given again; it was first given at line 1, column 1 [repeated] // it has a value there, so it cannot have keys of its own`}},
		{"rows over a list", "step = [{a = 1}]\n[[step]]\na = 2\n[[step]]\na = 3", []string{
			`2:3: [[step]] is given again; it was first given at line 1, column 1 [repeated] // write every row as [[step]], or all of them in one list`}},
		{"a table over rows", "[[step]]\na = 1\n[step]\na = 2", []string{
			`3:2: [step] is given again; it was first given at line 1, column 3 [repeated] // write every row as [[step]]`}},

		{"no quotes", "\tamount = 5 g # much\nat = 9 °C\nratio = 1+4\nbase = film", []string{
			`1:11: the value "5 g" lacks its quotes [syntax] // write amount = "5 g"`,
			`2:6: the value "9 °C" lacks its quotes [syntax] // write at = "9 °C"`,
			`3:9: the value "1+4" lacks its quotes [syntax] // write ratio = "1+4"`,
			`4:8: the value "film" lacks its quotes [syntax] // write base = "film"`}},
		{"no quotes inside", "s = [\n {add = \"a\", amount = 5 g},\n]\nt = [ 5 g, 6 g ]", []string{
			`2:23: the value "5 g" lacks its quotes [syntax] // write amount = "5 g"`,
			`4:7: the value "5 g" lacks its quotes [syntax] // write "5 g"`}},
		{"truth written large", "a = True", []string{`1:5: "True" is not a value [syntax] // write true or false, in small letters`}},
		{"a time", "a = 5:00", []string{`1:5: "5:00" is not a date [syntax] // write a = "5:00"`}},
		{"days of other habits", "a = 10/15/2026\nb = 01.10.2026\nc = 15/10/2026\nd = 03/04/2026", []string{
			`1:5: "10/15/2026" is not a date [syntax] // write a = 2026-10-15: year-month-day, without quotes`,
			`2:5: "01.10.2026" is not a date [syntax] // write b = 2026-10-01: year-month-day, without quotes`,
			`3:5: "15/10/2026" is not a date [syntax] // write c = 2026-10-15: year-month-day, without quotes`,
			`4:5: "03/04/2026" is not a date [syntax] // a date is written year-month-day, for example 2026-03-14, without quotes`}},
		{"a comma in a number", "a = 400,0", []string{`1:5: "400,0" is not a number [syntax] // write a decimal point, and a quantity with its unit in quotes: a = "400.0 mL"`}},
		{"quotes of a word processor", "a = “33 mL”\nb = „33 mL“", []string{
			`1:5: “33 mL” does not stand in quotes that TOML knows [syntax] // write a = "33 mL", with the straight quotes of the keyboard`,
			`2:5: „33 mL“ does not stand in quotes that TOML knows [syntax] // write b = "33 mL", with the straight quotes of the keyboard`}},
		{"a value behind a header", "[[step]] = \"x\"", []string{`1:10: something follows after the header of a table [syntax] // write [[step]] alone on its line, and its keys below it`}},
		{"a month alone", "a = 2029-04", []string{`1:5: "2029-04" is not a date [syntax] // a date is written year-month-day, for example 2026-03-14; where a label gives a month alone, take the last day of it for what is best before it, else the first`}},
		{"a month too many", "a = 2026-13-40", []string{`1:5: "2026-13-40" is not a date [syntax] // a date is written year-month-day, for example 2026-03-14`}},
		{"open text", "a = \"x\nb = 1\nc = 'y", []string{
			"1:5: the text that begins here has no closing quote [syntax] // " + noQuote,
			"3:5: the text that begins here has no closing quote [syntax] // " + noQuote}},
		{"open text of lines", "a = 1\nb = \"\"\"\nx\n[c]\n", []string{
			"2:5: the text that begins here has no closing quote [syntax] // close it with the three quotes that open it"}},
		{"quotes within quotes", "a = \"é \"x\" y\"", []string{"1:9: something follows after the closing quote [syntax] // " + inner}},
		{"two on a line", "a = [1] b = 2", []string{"1:9: something follows after the end of the value [syntax]"}},
		{"no comma between rows", "s = [\n {a = 1}\n {a = 2}\n]\nb = 1\nb = 2", []string{
			"3:2: a comma or the closing ] is missing before this [syntax]",
			`6:1: "b" is given again; it was first given at line 5, column 1 [repeated] // keep one of the two`}},
		{"no comma in a table", "s = {a = 1\n b = 2}", []string{"2:2: a comma or the closing } is missing before this [syntax]"}},
		{"open list", "a = 1\nb = [1, 2\n", []string{"2:5: the list or table that begins here is never closed [syntax] // close it with ] or }"}},
		{"open list after a comma", "b = [1,", []string{"1:5: the list or table that begins here is never closed [syntax] // close it with ] or }"}},
		{"open table", "b = {a = 1,", []string{"1:5: the list or table that begins here is never closed [syntax] // close it with ] or }"}},
		{"open list before a header", "step = [\n {a = 1},\n[control]\nversion = two\n", []string{
			`3:2: the value "control" lacks its quotes [syntax] // the list or table that begins at line 1, column 8 is not closed before this`,
			`4:11: the value "two" lacks its quotes [syntax] // write version = "two"`}},
		{"comma", "a = [1,,2]", []string{"1:8: one comma too many [syntax] // delete it"}},
		{"no value", "a =\nb = 1", []string{"1:4: no value follows [syntax] // write one, or delete the line"}},
		{"no key", "= 1", []string{"1:1: this is not a key with a value [syntax] // " + aKey}},
		{"only a key", "\na\n", []string{"2:1: this is not a key with a value [syntax] // " + aKey}},
		{"key of other letters", "é = 1", []string{"1:1: this is not a key with a value [syntax] // " + aKey}},
		{"colon", "name: \"x\"\nb = {c: 1}", []string{
			"1:1: this is not a key with a value [syntax] // " + aKey,
			"2:7: this is not a key with a value [syntax] // " + aKey}},
		{"header", "[a\nb = 1\n[c.]\nd = x\n[e]\nf = x", []string{
			"1:3: the name of the table is not complete [syntax] // " + header,
			"3:4: the name of the table is not complete [syntax] // " + header,
			`6:5: the value "x" lacks its quotes [syntax] // write f = "x"`}},
		{"escape", `a = "C:\new\quick"`, []string{`1:12: a backslash here begins nothing that TOML knows [syntax] // ` + escape}},
		{"half a rune", `a = "\uD800"`, []string{`1:6: a backslash here begins nothing that TOML knows [syntax] // ` + escape}},
		{"points", "a = .5\nb = 5.", []string{
			"1:5: a decimal point stands between two digits [syntax] // " + point,
			"2:5: a decimal point stands between two digits [syntax] // " + point}},
		{"leading zero", "a = 05", []string{`1:5: a number does not begin with a zero [syntax] // write a = "05"`}},
		{"underscores", "a = 1__0", []string{"1:5: an underscore in a number stands between two digits [syntax]"}},
		{"huge number", "a = 99999999999999999999", []string{"1:5: the number 99999999999999999999 is too large to hold [syntax]"}},
		{"odd number", "a = [0x]", []string{`1:6: the value "0x" lacks its quotes [syntax] // write "0x"`}},
		{"six quotes", "a = \"\"\"x\"\"\"\"\"\"", []string{"1:8: unexpected '\"\"\"\"\"\"' [syntax]"}},
		{"runes before it", "a = [\"😀\", x]", []string{`1:11: the value "x" lacks its quotes [syntax] // write "x"`}},
		{"after a mark", "\ufeffa = x", []string{`1:5: the value "x" lacks its quotes [syntax] // write a = "x"`}},
		{"carriage returns", "a = 1\r\nb = x\r\na = 2\r\n", []string{
			`2:5: the value "x" lacks its quotes [syntax] // write b = "x"`,
			`3:1: "a" is given again; it was first given at line 1, column 1 [repeated] // keep one of the two`}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			tree, faults := Parse("f", []byte(tt.src))
			var want []string
			for _, w := range tt.want {
				want = append(want, "f:"+w)
			}
			assert.Equal(t, want, lines(faults))
			require.NotNil(t, tree)
			var into map[string]any
			tree.Decode(&into)
			assert.Nil(t, into, "a file with faults is not decoded")
		})
	}
}

func TestManyFaultsEndSomewhere(t *testing.T) {
	_, faults := Parse("f", []byte(strings.Repeat("a = x\n", 1000)))
	assert.NotEmpty(t, faults)
	assert.LessOrEqual(t, len(faults), 1000)
}
