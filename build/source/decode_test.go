package source

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// refusal is an error that says more than its text.
type refusal struct{ code, what, hint, key string }

func (r refusal) Error() string     { return r.what }
func (r refusal) FaultCode() string { return r.code }
func (r refusal) FaultHint() string { return r.hint }
func (r refusal) FaultKey() string  { return r.key }

// mass is read from text with a unit.
type mass struct{ text string }

func (m *mass) UnmarshalText(b []byte) error {
	text := string(b)
	if !strings.HasSuffix(text, " g") {
		return refusal{code: "quantity", what: fmt.Sprintf("%q is not a mass", text), hint: `write the unit as g, for example "6 g"`}
	}
	m.text = text
	return nil
}

// factor is text that needs no unit.
type factor string

func (f *factor) UnmarshalText(b []byte) error {
	*f = factor(b)
	return nil
}

// plainMass gives no hint of its own.
type plainMass struct{}

func (*plainMass) UnmarshalText([]byte) error { return errors.New("no mass") }

// day is a TOML date.
type day struct{ time.Time }

func (d *day) UnmarshalTOML(v any) error {
	at, ok := v.(time.Time)
	if !ok {
		return fmt.Errorf("%v is not a date", v)
	}
	d.Time = at
	return nil
}

// union keeps whatever it is given and refuses what holds "bad".
type union struct{ got any }

func (u *union) UnmarshalTOML(v any) error {
	u.got = v
	table, _ := v.(map[string]any)
	var errs []error
	for _, season := range []string{"summer", "winter"} {
		if table[season] == "bad" {
			errs = append(errs, refusal{code: "quantity", what: season + " is bad", key: season})
		}
	}
	if list, ok := table["list"].([]any); ok && len(list) > 1 && list[1] == "bad" {
		errs = append(errs, refusal{what: "an item is bad", key: "list[1]"})
	}
	if _, ok := table["autumn"]; ok {
		errs = append(errs, refusal{code: "key", what: "unknown season", key: ".autumn"})
	}
	if v == "bad" {
		errs = append(errs, refusal{code: "", what: "bad", key: "nowhere.at.all"})
	}
	return errors.Join(errs...)
}

type common struct {
	Origin  map[string]string `toml:"origin"`
	Control *control          `toml:"control"`
	Name    string            `toml:"-"`
}

type control struct {
	Version int  `toml:"version"`
	Date    day  `toml:"date"`
	Final   bool `toml:"final"`
}

type step struct {
	Add    string   `toml:"add"`
	Amount mass     `toml:"amount"`
	Lots   uint8    `toml:"lots"`
	Tags   []string `toml:"tags"`
}

type strength struct {
	Dilute string            `toml:"dilute"`
	Needs  mass              `toml:"needs"`
	Part   map[string]*share `toml:"part"`
}

type share struct {
	Share float64 `toml:"share"`
}

type tree struct {
	Label string  `toml:"label"`
	Kids  []*tree `toml:"kids"`
	Next  *tree   `toml:"next"`
}

type document struct {
	common
	Title     string               `toml:"title"`
	Keeps     union                `toml:"keeps"`
	Steps     []step               `toml:"step"`
	Strengths map[string]*strength `toml:"strength"`
	Small     int8                 `toml:"small"`
	Share     float32              `toml:"share"`
	Pair      [2]int               `toml:"pair"`
	Grid      [][]int              `toml:"grid"`
	Parts     factor               `toml:"parts"`
	Plain     plainMass            `toml:"plain"`
	At        time.Time            `toml:"at"`
	Any       any                  `toml:"any"`
	Tree      *tree                `toml:"tree"`
	Batches   []mass               `toml:"batches"`
	Secret    string
}

func TestDecodeFills(t *testing.T) {
	src := "\ufeff" + `
title = "stop"
keeps = { full = "1 day", list = [1, "x"] }
small = -128
share = 1
pair = [1, 2]
grid = [[1], [], [2, 3]]
parts = 4
at = 2026-03-14T10:00:00Z
any = { a = [1.5, 2] }
batches = ["1 g", "2 g"]
[control]
version = 3
date = 2026-01-10
final = true
[origin]
"strength.working.needs" = "house"
[strength.working]
needs = "5 g"
part.first.share = 0.5
[[step]]
add = "a"
amount = "6 g"
lots = 255
tags = ["x"]
[[step]]
[tree]
label = "r"
kids = [{ label = "a", next = { label = "b" } }]
`
	parsed, faults := Parse("f", []byte(src))
	require.Empty(t, lines(faults))
	var d document
	require.Empty(t, lines(parsed.Decode(&d)))
	assert.Equal(t, "stop", d.Title)
	assert.Equal(t, map[string]any{"full": "1 day", "list": []any{int64(1), "x"}}, d.Keeps.got)
	assert.Equal(t, int8(-128), d.Small)
	assert.Equal(t, [][]int{{1}, {}, {2, 3}}, d.Grid)
	assert.Equal(t, factor("4"), d.Parts)
	assert.Equal(t, 3, d.Control.Version)
	assert.Equal(t, 10, d.Control.Date.Day())
	assert.Equal(t, "house", d.Origin["strength.working.needs"])
	assert.Equal(t, "5 g", d.Strengths["working"].Needs.text)
	assert.Equal(t, 0.5, d.Strengths["working"].Part["first"].Share)
	assert.Len(t, d.Steps, 2)
	assert.Equal(t, "b", d.Tree.Kids[0].Next.Label)
	assert.Len(t, d.Batches, 2)
}

func TestDecodeFaults(t *testing.T) {
	const spelt = "the keys here are add, amount, lots, tags"
	tests := []struct {
		name, src string
		want      []string
	}{
		{"faults in every row at their own place",
			"[[step]]\namount = \"5 gm\"\n[[step]]\n  amuont = \"5 g\"\n[[step]]\ntags = [\"é\", 3]\namount = \"6\"\n", []string{
				`2:10: "5 gm" is not a mass [quantity] // write the unit as g, for example "6 g"`,
				`4:3: unknown key "amuont" [key] // did you mean "amount"?`,
				`6:14: found the number 3 where text is expected [shape] // write it in quotes: tags = "3"`,
				`7:10: "6" is not a mass [quantity] // write the unit as g, for example "6 g"`}},
		{"the same in an inline list",
			"step = [\n\t{ add = \"😀\", amount = \"5 gm\" },\n\t{ amount = \"5 g\", nmae = 1 }, # ]\n\t{ lots = 256 },\n]\n", []string{
				`2:24: "5 gm" is not a mass [quantity] // write the unit as g, for example "6 g"`,
				`3:20: unknown key "nmae" [key] // ` + spelt,
				`4:11: 256 is too large [value]`}},
		{"dotted and quoted keys",
			"strength.\"wörk ing\".needs = \"5\"\nstrength.b = { part . c . share = \"x\" }\n", []string{
				`1:29: "5" is not a mass [quantity] // write the unit as g, for example "6 g"`,
				`2:35: found the text "x" where a number is expected [shape]`}},
		{"numbers for quantities", "[[step]]\namount = 5.0\n[[step]]\namount = 5\n[strength.a]\nneeds = 11:00\n", []string{
			`2:10: found the number 5.0 where a quantity with its unit is expected [quantity] // put it in quotes and write the unit as g, for example "6 g"`,
			`4:10: found the number 5 where a quantity with its unit is expected [quantity] // put it in quotes and write the unit as g, for example "6 g"`,
			`6:9: found the time 11:00 where a quantity with its unit is expected [quantity] // put it in quotes and write the unit as g, for example "6 g"`}},
		{"numbers for quantities without hints", "plain = 5.0\nparts = 0.0000123\n", []string{
			`1:9: found the number 5.0 where a quantity with its unit is expected [quantity] // write it in quotes with a unit, for example plain = "5 g"`,
			`2:9: found the number 0.0000123 where a quantity with its unit is expected [quantity] // write it in quotes: parts = "0.0000123"`}},
		{"other shapes for quantities", "[strength.a]\nneeds = true\n[strength.b]\nneeds = [\"5 g\"]\n[strength.c.needs]\n", []string{
			`2:9: found true where text is expected [shape] // write it in quotes: needs = "true"`,
			`4:9: found a list where text is expected [shape]`,
			`5:13: found a table where text is expected [shape]`}},
		{"a table for a list of tables", "[step]\nadd = \"x\"\n", []string{"1:2: found a table where a list of tables is expected [shape] // write [[step]]"}},
		{"an inline table for a list of tables", "step = { add = \"x\" }\n", []string{"1:8: found a table where a list of tables is expected [shape] // write [[step]]"}},
		{"a list of tables for a table", "[[control]]\nversion = 1\n", []string{"1:3: found a list of tables where a table is expected [shape] // write [control], once"}},
		{"a list for a table", "control = [1]\nstrength = []\n", []string{
			"1:11: found a list where a table is expected [shape]",
			"2:12: found a list where a table is expected [shape]"}},
		{"a text for a table", "control = \"3\"\nstrength = \"1+1\"\n", []string{
			`1:11: found the text "3" where a table is expected [shape] // its keys are version, date, final`,
			`2:12: found the text "1+1" where a table is expected [shape] // write it as strength = { … }`}},
		{"a text for a list", "batches = \"1 g\"\npair = 1\n", []string{
			`1:11: found the text "1 g" where a list is expected [shape] // write it in brackets: batches = ["1 g"]`,
			`2:8: found the number 1 where a list is expected [shape] // write it in brackets: pair = [1]`}},
		{"a list of the wrong length", "pair = [1, 2, 3]\n", []string{"1:8: found 3 values where 2 are expected [shape]"}},
		{"texts for numbers", "small = \"5\"\nshare = \"0.5\"\n[control]\nversion = \"x\"\nfinal = \"true\"\n", []string{
			`1:9: found the text "5" where a whole number is expected [shape] // write it without quotes: small = 5`,
			`2:9: found the text "0.5" where a number is expected [shape] // write it without quotes: share = 0.5`,
			`4:11: found the text "x" where a whole number is expected [shape]`,
			`5:9: found the text "true" where true or false is expected [shape] // write it without quotes: final = true`}},
		{"numbers out of range", "small = 128\nshare = 16777216\npair = [9223372036854775807, 1.5]\n[[step]]\nlots = -1\n", []string{
			"1:9: 128 is too large [value]",
			"2:9: 16777216 is too large [value]",
			"3:30: found the number 1.5 where a whole number is expected [shape]",
			"5:8: -1 is negative [value]"}},
		{"a float out of range", "share = 1e300\n", []string{"1:9: 1e300 is too large [value]"}},
		{"other values for texts", "title = 2026-03-14\n", []string{
			`1:9: found the date 2026-03-14 where text is expected [shape] // write it in quotes: title = "2026-03-14"`}},
		{"long texts and odd names", "[origin]\n\"a b\" = 5\n\"\" = 1\n[control]\nversion = \"" + strings.Repeat("é", 41) + "\"\n", []string{
			`2:9: found the number 5 where text is expected [shape] // write it in quotes: "a b" = "5"`,
			`3:6: found the number 1 where text is expected [shape] // write it in quotes: "1"`,
			`5:11: found the text "` + strings.Repeat("é", 40) + `…" where a whole number is expected [shape]`}},
		{"a text for a time", "at = \"2026-03-14\"\n", []string{
			`1:6: found the text "2026-03-14" where a date or time is expected [shape] // write it without quotes, for example 2026-03-14`}},
		{"nested lists", "grid = [[1], [2, \"é\", \"x\"],\n [[3]]]\n", []string{
			`1:18: found the text "é" where a whole number is expected [shape]`,
			`1:23: found the text "x" where a whole number is expected [shape]`,
			`2:3: found a list where a whole number is expected [shape]`}},
		{"errors joined, with keys", "[keeps]\nsummer = \"bad\"\nwinter = \"bad\"\nlist = [1, \"bad\"]\nautumn = 1\n", []string{
			"2:10: summer is bad [quantity]",
			"3:10: winter is bad [quantity]",
			"4:12: an item is bad [value]",
			"5:1: unknown season [key]"}},
		{"an error with a key that is not there", "keeps = \"bad\"\n", []string{"1:9: bad [value]"}},
		{"an error of a date", "[control]\ndate = \"2026-01-10\"\n", []string{"2:8: 2026-01-10 is not a date [value]"}},
		{"keys written large", "Title = \"x\"\n", []string{`1:1: unknown key "Title" [key] // keys are written small: "title"`}},
		{"fields without a tag are not keys", "Secret = \"x\"\nName = \"x\"\n", []string{
			`1:1: unknown key "Secret" [key] // the keys here are title, keeps, step, strength, small, share, pair, grid, parts, plain, at, any, tree, batches, origin, control`,
			`2:1: unknown key "Name" [key] // the keys here are title, keeps, step, strength, small, share, pair, grid, parts, plain, at, any, tree, batches, origin, control`}},
		{"keys below a header that belong above it", "[[step]]\n[control]\nkeeps = \"x\"\nkepes = \"x\"\n", []string{
			`3:1: unknown key "keeps" [key] // "keeps" belongs to the top of the file: move it above [[step]]`,
			`4:1: unknown key "kepes" [key] // did you mean "keeps"? "keeps" belongs to the top of the file: move it above [[step]]`}},
		{"the same without a header", "control = { keeps = 1 }\n", []string{
			`1:13: unknown key "keeps" [key] // "keeps" belongs to the top of the file`}},
		{"keys that belong in another table", "needs = \"5 g\"\nadd = \"x\"\n[strength.a]\nversion = 1\n", []string{
			`1:1: unknown key "needs" [key] // "needs" belongs in [strength.NAME]`,
			`2:1: unknown key "add" [key] // "add" belongs in [[step]]`,
			`4:1: unknown key "version" [key] // "version" belongs in [control]`}},
		{"a key known in a table that holds itself", "label = 1\n[tree.next]\nkids = [{ labl = 1 }]\n", []string{
			`1:1: unknown key "label" [key] // "label" belongs in [tree] or [[tree.kids]] or [tree.next] and others`,
			`3:11: unknown key "labl" [key] // did you mean "label"?`}},
		{"an unknown table", "[strenght.working]\nneeds = \"5\"\n", []string{`1:2: unknown key "strenght" [key] // did you mean "strength"?`}},
		{"unknown rows, once", "[[stepp]]\n[[stepp]]\n", []string{`1:3: unknown key "stepp" [key] // did you mean "step"?`}},
		{"after a mark", "\ufefftitle = 1\n", []string{`1:9: found the number 1 where text is expected [shape] // write it in quotes: title = "1"`}},
		{"carriage returns", "title = \"x\"\r\nsmall = 1.5\r\n", []string{"2:9: found the number 1.5 where a whole number is expected [shape]"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			parsed, faults := Parse("f", []byte(tt.src))
			require.Empty(t, lines(faults))
			var want []string
			for _, w := range tt.want {
				want = append(want, "f:"+w)
			}
			var d document
			got := parsed.Decode(&d)
			assert.Equal(t, want, lines(got))
			for _, f := range got {
				if f.Code != CodeKey {
					assert.Zero(t, d, "nothing is filled")
					break
				}
			}
		})
	}
}

// TestUnknownKeyHidesNothing: the keys that are known are read all the same, so
// that what they say can be checked at once.
func TestUnknownKeyHidesNothing(t *testing.T) {
	parsed, faults := Parse("f", []byte("title = \"stop\"\ntitel = \"x\"\n"))
	require.Empty(t, faults)
	var d document
	require.Len(t, parsed.Decode(&d), 1)
	assert.Equal(t, "stop", d.Title)
}

// Faults in the syntax or repeated keys do not hide those in the values.
func TestDecodeAfterFaults(t *testing.T) {
	src := `title = stop
small = 1.5
[control]
version = 1
[control]
version = "2"
date = true
[[step]]
add = 1
[broken
small = 1.5
[[step]]
amount = "x"
`
	parsed, faults := Parse("f", []byte(src))
	assert.Equal(t, []string{
		`f:1:9: the value "stop" lacks its quotes [syntax] // write title = "stop"`,
		`f:5:2: [control] is given again; it was first given at line 3, column 2 [repeated] // gather its keys in one place`,
		`f:10:8: the name of the table is not complete [syntax] // a table is written [name] or [name.name], a row of a list [[name]]`,
	}, lines(faults))
	var d document
	assert.Equal(t, []string{
		"f:2:9: found the number 1.5 where a whole number is expected [shape]",
		`f:6:11: found the text "2" where a whole number is expected [shape] // write it without quotes: version = 2`,
		`f:9:7: found the number 1 where text is expected [shape] // write it in quotes: add = "1"`,
		`f:13:10: "x" is not a mass [quantity] // write the unit as g, for example "6 g"`,
	}, lines(parsed.Decode(&d)))
	assert.Zero(t, d)
}

// A type of many shapes gets the same values whether it is being checked or
// filled.
func TestUnionSeesWhatTheDecoderGives(t *testing.T) {
	srcs := []string{
		`u = "x"`, `u = 1`, `u = 1.5`, `u = true`, `u = 2026-03-14`, `u = 10:00:00`,
		`u = [1, "a", [2]]`, `u = [{a = 1}, {b.c = 2}]`, `u = {a = {b = 1}}`,
		"[[u]]\na = 1\n[[u]]\n[u.b]\nc = 1", "[u.a]\nb = 1", "[u]\n[[u.rows]]\n[[u.rows]]\nx = 1",
	}
	for _, src := range srcs {
		t.Run(src, func(t *testing.T) {
			parsed, faults := Parse("f", []byte(src))
			require.Empty(t, lines(faults))
			seen = nil
			var d struct {
				U recorder `toml:"u"`
			}
			require.Empty(t, lines(parsed.Decode(&d)))
			require.Len(t, seen, 2)
			assert.Equal(t, seen[1], seen[0])
		})
	}
}

var seen []any

type recorder struct{}

func (recorder) UnmarshalTOML(v any) error {
	seen = append(seen, v)
	return nil
}

// What the decoder alone refuses is never lost.
func TestDecoderHasTheLastWord(t *testing.T) {
	parsed, _ := Parse("f", []byte("a = 1\nc = 2\n"))
	var d struct {
		C chan int `toml:"c"`
		A int      `toml:"a"`
	}
	faults := parsed.Decode(&d)
	require.Len(t, faults, 1)
	assert.Equal(t, CodeSyntax, faults[0].Code)
	assert.Equal(t, 2, faults[0].Span.Start.Line)
	assert.Contains(t, faults[0].What, "unsupported type")

	fickle = 0
	var f struct {
		A int      `toml:"a"`
		C fickleAt `toml:"c"`
	}
	assert.Equal(t, []string{"f:2:5: changed its mind [syntax]"}, lines(parsed.Decode(&f)))
}

var fickle int

// fickleAt accepts a value once.
type fickleAt struct{}

func (*fickleAt) UnmarshalTOML(any) error {
	if fickle++; fickle > 1 {
		return errors.New("changed its mind")
	}
	return nil
}

// carried is a number that carries more beside itself.
type carried struct {
	n    int
	more string
}

func (c *carried) Inside() any { return &c.n }

func (c *carried) UnmarshalTOML(v any) error {
	n, _ := v.(int64)
	c.n, c.more = int(n), "more"
	return nil
}

// TestCarrier: what carries more beside a value is checked and read as the value alone.
func TestCarrier(t *testing.T) {
	decode := func(text string, into any) Faults {
		tree, faults := Parse("x.toml", []byte(text))
		require.False(t, faults.HasErrors())
		return tree.Decode(into)
	}
	for _, text := range []string{"n = \"2\"", "n = 2.5", "n = [ 2 ]", "n = true"} {
		var with struct {
			N carried `toml:"n"`
		}
		var alone struct {
			N int `toml:"n"`
		}
		want := decode(text, &alone)
		require.NotEmpty(t, want, text)
		require.Equal(t, want, decode(text, &with), text)
	}
	var with struct {
		N carried `toml:"n"`
	}
	require.Empty(t, decode("n = 2", &with))
	require.Equal(t, carried{2, "more"}, with.N)
}
