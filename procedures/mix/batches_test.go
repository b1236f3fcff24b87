package mix

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
)

// jugs is a lab with a scale, two cylinders and a syringe that is kept for the first part
// of a bath.
const jugs = `
-- lab.toml --
[lab]
name = "Test"
[scale.fine]
reads = "0.01 g"
checked = 2026-01-01
[cylinder.hundred]
holds = "100 mL"
[cylinder.thousand]
holds = "1000 mL"
[syringe.five]
holds = "5 mL"
graduation = "0.2 mL"
tolerance = "0.1 mL"
for = ["part-a"]
-- chemicals/salt.toml --
name = "salt"
[form.pure]
formula = "none"
takes_up = "0.5 mL/g"
-- chemicals/acid.toml --
name = "acid"
[form.liquid]
formula = "none"
density = "1.2 g/mL"
content = "50 % w/w"
-- solutions/part-a.toml --
name = "part A"
per = "1 L"
make = { batches = ["500 mL", "2 L"] }
[[step]]
add = "salt.pure"
amount = "20 g"
[strength.working]
dilute = "1+4"
[strength.weak]
from = "working"
dilute = "1+1"
[strength.straight]
dilute = "none"
[strength.once]
dilute = "1+4"
use = "one-shot"
-- solutions/part-b.toml --
name = "part B"
per = "600 mL"
[[step]]
add = "acid.liquid"
amount = "60 g"
-- solutions/mixed.toml --
name = "mixed"
makes = "working"
[[step]]
add = "part-a"
parts = 1
[[step]]
add = "part-b"
parts = 24
-- solutions/watered.toml --
name = "watered"
makes = "working"
[[step]]
add = "part-b"
parts = 1
[[step]]
add = "water"
parts = 24
-- solutions/whole.toml --
name = "whole"
per = "1 L"
[[step]]
add = "part-a"
amount = "400 mL"
[[step]]
add = "part-b"
amount = "600 mL"
-- solutions/short.toml --
name = "short"
per = "1 L"
[[step]]
add = "part-a"
amount = "400 mL"
[[step]]
add = "part-b"
amount = "599 mL"
-- solutions/lost.toml --
name = "lost"
per = "1 L"
[[step]]
add = "nobody.pure"
amount = "5 g"
[[step]]
add = "salt.pure"
amount = "5 g"
-- solutions/percent.toml --
name = "percent"
dissolve = { add = "salt.pure", strength = "10 % w/v", in = "water" }
-- solutions/percent-of-none.toml --
name = "percent of a bath"
dissolve = { add = "part-a", strength = "10 % w/v", in = "water" }
`

func mixerOf(t *testing.T, archive string) *Mixer {
	t.Helper()
	loaded := binders.Loaded(t, binders.Of(archive), fstest.MapFS{})
	bench, problems := NewBench(loaded.Lab)
	require.Empty(t, problems)
	return New(loaded.Lab, bench, figure.NewLedger())
}

func volume(text string) unit.Quantity[unit.Volume] { return unit.MustParse[unit.Volume](text) }

// TestTry: every part of a mixture can be measured, each with the glass that is kept for
// it; what is not mixed by parts cannot be tried.
func TestTry(t *testing.T) {
	m := mixerOf(t, jugs)
	for _, c := range []struct {
		of, volume string
		can        bool
	}{
		{"mixed", "100 mL", true},    // 4 ml in the syringe of part A, 96 ml in the cylinder
		{"mixed", "83 mL", false},    // 3.32 ml are too little for it
		{"mixed", "84 mL", true},     // 3.36 ml are not
		{"mixed", "13 L", false},     // 12.48 litres are more pours than a hand counts
		{"watered", "100 mL", false}, // 4 ml of part B, and the syringe is not for it
		{"watered", "900 mL", true},  // 36 ml
		{"part-a", "1 L", false},
		{"percent", "1 L", true},
	} {
		require.Equal(t, c.can, m.Try(m.Lab.Solution(c.of), volume(c.volume)), "%s of %s", c.volume, c.of)
	}
}

// TestMakes: what a batch comes to when it is diluted; of a one-shot strength the batch.
func TestMakes(t *testing.T) {
	m := mixerOf(t, jugs)
	for ref, want := range map[string]string{"part-a.stock": "500 mL", "part-a.working": "2500 mL", "part-a.weak": "5000 mL", "part-a.straight": "500 mL", "part-a.once": "500 mL"} {
		b, bad := m.Lab.Bath(ref, figure.Where{})
		require.Empty(t, bad)
		require.Equal(t, want, m.Makes(b, volume("500 mL")).Text(), ref)
	}
}

// TestBatches: the volumes that a lab mixes, else that of the formula, else a litre.
func TestBatches(t *testing.T) {
	m := mixerOf(t, jugs)
	for id, want := range map[string]string{"part-a": "500 mL 2 L", "part-b": "600 mL", "mixed": "1 L"} {
		var got []string
		for _, q := range m.Batches(m.Lab.Solution(id)) {
			got = append(got, q.Text())
		}
		require.Equal(t, want, strings.Join(got, " "), id)
	}
}

// TestBatch: each thing is measured as its kind is, and a jug is filled up to the mark
// unless what goes into it is the whole already.
func TestBatch(t *testing.T) {
	m := mixerOf(t, jugs)
	for _, c := range []struct {
		of, volume string
		rows       []string
		fill       string
		start      string
	}{
		{"part-a", "500 mL", []string{"weigh.salt 10.00 g"}, "500 ml", "400 ml"},
		// 60 g of a liquid of 0.6 g a millilitre, for 600 ml.
		{"part-b", "1.2 L", []string{"pour.acid 200 ml"}, "1200 ml", ""},
		{"part-b", "12 L", []string{"pour.acid 2000 ml"}, "12 L", ""},
		{"mixed", "1 L", []string{"pour.part-a 40 ml", "pour.part-b 960 ml"}, "", ""},
		{"whole", "1 L", []string{"pour.part-a 400 ml", "pour.part-b 600 ml"}, "", ""},
		{"short", "1 L", []string{"pour.part-a 400 ml", "pour.part-b 600 ml"}, "1000 ml", ""},
		{"lost", "1 L", []string{"weigh.salt 5.00 g"}, "1000 ml", "800 ml"},
		{"percent", "100 mL", []string{"weigh.salt 10.00 g"}, "100 ml", "80 ml"},
		{"percent", "2 mL", []string{"weigh.salt refused: too little for the scale"}, "2 ml", ""},
		{"percent-of-none", "100 mL", nil, "100 ml", ""},
	} {
		t.Run(c.of+" "+c.volume, func(t *testing.T) {
			got := m.Batch(m.Lab.Solution(c.of), volume(c.volume), figure.Where{})
			var rows []string
			for _, r := range got.Rows {
				_, id, _ := strings.Cut(r.Take.Amount.ID, "/")
				id, _, _ = strings.Cut(id, "@")
				text := r.Take.Amount.Shown + " " + r.Take.Amount.Unit
				if r.Take.Refused != "" {
					text = "refused: " + r.Take.Refused[:len("too little for the scale")]
				}
				rows = append(rows, id+" "+text)
			}
			require.Equal(t, c.rows, rows)
			said := func(r *figure.Record) string {
				if r == nil {
					return ""
				}
				return strings.TrimSpace(r.Shown + " " + r.Unit)
			}
			require.Equal(t, c.fill, said(got.Fill))
			if c.start != "" {
				require.Equal(t, c.start, said(got.Start))
			}
			require.Equal(t, c.fill != "", got.Start != nil, "water to start with is for a jug that is filled up")
		})
	}
}

// TestMeasuredFrom: of what cannot be measured, the amount that is wanted.
func TestMeasuredFrom(t *testing.T) {
	amount, wanted := &figure.Record{}, &figure.Record{}
	require.Same(t, amount, Take{Amount: amount}.Measured())
	require.Same(t, wanted, Take{Amount: amount, Wanted: wanted}.Measured())
	shown, word := ShowVolume(mustRat("9999.5"))
	require.Equal(t, "9999.5 ml", shown+" "+word)
	shown, word = ShowVolume(mustRat("10000"))
	require.Equal(t, "10 L", shown+" "+word)
}
