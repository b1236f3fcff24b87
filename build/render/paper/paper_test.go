package paper

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/testdata/fixture"
	"wetside/build/render/view"
	"wetside/procedures"
	"wetside/procedures/page"
)

// TestEstimatesKnowEveryBlock: the estimate drops no kind of block because nobody thought of
// it there, and has no entry for a kind that is gone.
func TestEstimatesKnowEveryBlock(t *testing.T) {
	var kinds []string
	for _, b := range page.Blocks() {
		kinds = append(kinds, b.Block())
	}
	require.ElementsMatch(t, kinds, slices.Collect(maps.Keys(estimates)), "the estimate of heights")
	for kind, e := range estimates {
		require.NotNil(t, e.rows, kind)
	}
}

// papers is the paper of a binder in the standard theme.
func papers(t *testing.T, b procedures.Binder) *Papers {
	t.Helper()
	binder, err := view.NewBinder(b, fixture.Theme(t), "")
	require.NoError(t, err)
	return Of(binder)
}

func placed(t *testing.T, b procedures.Binder) ([]Print, []Fitted) {
	t.Helper()
	prints, fitted, err := papers(t, b).Place()
	require.NoError(t, err)
	return prints, fitted
}

// TestLargerPaper: what does not fit goes to the next larger paper that the lab
// prints on, and is not made twice.
func TestLargerPaper(t *testing.T) {
	b := fixture.Hard()
	b.Prints = []page.Print{{Page: "mix/film-developer", Choice: 1, Variant: "film-developer.stock+1000ml", Faces: []string{"index", "wall-a5", "wall-a6"}}}
	prints, fitted := placed(t, b)
	if len(fitted) != 2 || fitted[0].Paper != "index" || fitted[0].To != "a5" || fitted[1].To != "a5" || fitted[0].Over <= 0 {
		t.Errorf("what was done: %+v", fitted)
	}
	var made []string
	for _, pr := range prints {
		made = append(made, pr.Path)
	}
	if got, want := strings.Join(made, " "), "wall/a5/film-developer.stock+1000ml.html"; got != want {
		t.Errorf("made %s", got)
	}
	b.Prints[0].Faces = []string{"index"}
	prints, fitted = placed(t, b)
	if len(fitted) != 1 || fitted[0].To != "" || fitted[0].Sheets != len(prints[0].Sheets) || fitted[0].Sheets < 2 {
		t.Errorf("without a larger paper: %+v", fitted)
	}
	// What would take more sheets than there is place for is on the smallest paper that holds it.
	b.Prints[0] = page.Print{Page: "process/sixty", Choice: -1, Variant: "sixty", Faces: []string{"wall-half", "wall-half"}}
	prints, fitted = placed(t, b)
	if len(prints) != 1 || prints[0].Face.Name != "wall-letter" || fitted[0].Refused <= mostSmall || fitted[0].To != "letter" {
		t.Errorf("too many small sheets: %d prints, %+v", len(prints), fitted)
	}
}

// TestFinished: a free side for holes, and room inside the trim of what is laminated; the
// binder and what is drawn are not finished.
func TestFinished(t *testing.T) {
	plain := papers(t, procedures.Binder{})
	for _, p := range []page.Paper{{}, {Punch: true}, {Laminate: true}, {Colour: true}} {
		s := papers(t, procedures.Binder{Paper: p})
		require.Equal(t, p.Punch || p.Laminate, s.Rules() != "", p)
		walls := 0
		for i, f := range s.Faces {
			was := plain.Faces[i]
			if !f.OnWall() {
				require.Equal(t, was, f)
				continue
			}
			walls++
			require.Equal(t, p.Punch, f.Margin[3] >= holesSide, f.Name)
			if p.Laminate {
				require.GreaterOrEqual(t, slices.Min(f.Margin), sealedOff, f.Name)
			}
			if p == (page.Paper{Colour: true}) {
				require.Equal(t, was, f)
			}
		}
		require.Greater(t, walls, 4)
	}
}

// TestCut: a card of sixty steps is cut over several sheets, each of which has room on its
// paper, and no step is lost or said twice.
func TestCut(t *testing.T) {
	b := fixture.Hard()
	s := papers(t, b)
	prints, _, err := s.Place()
	require.NoError(t, err)
	for _, pr := range prints {
		if pr.Page.ID != "mix/sixty" && pr.Page.ID != "process/sixty" {
			continue
		}
		require.Greater(t, len(pr.Sheets), 2, pr.Page.ID)
		rows := 0
		for i, p := range pr.Sheets {
			require.Equal(t, rows, pr.Steps[i], "%s: steps before sheet %d", pr.Page.ID, i+1)
			for _, block := range p.Do {
				rows += page.Rows(block)
			}
			v := s.binder.View(p, pr.Face, pr.Choice)
			v.Cut, v.Cuts, v.Close, v.Tight = i+1, len(pr.Sheets), pr.Close, pr.Tight
			require.LessOrEqual(t, Height(v, pr.Face.Scales(p.ID)[pr.Scale]), Room(pr.Face), "%s, sheet %d", p.ID, i+1)
		}
		require.Equal(t, 60, rows, pr.Page.ID)
	}
}

// TestRemarksStay: where tables have remarks, no table is put before another to fill a sheet: each
// remark stands below its own table.
func TestRemarksStay(t *testing.T) {
	b := fixture.Hard()
	table := func(name string, rows int) page.Table {
		out := page.Table{Caption: page.Say(page.S(name)), Head: []page.Text{page.Say(page.W("what"))}}
		for range rows {
			out.Rows = append(out.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.W("a bottle"))}}})
		}
		return out
	}
	remark := func(of string) page.Block { return page.Para{Text: page.Say(page.W(of + ", remark"))} }
	for rows := 8; rows < 30; rows++ {
		p := page.Page{ID: "shelf/index", Kind: "shelf", Title: "Shelf"}
		p.Tables = []page.Block{table("dead", rows), remark("dead"), table("ends", 5), remark("ends"), table("good", 1), remark("good"),
			table("rest", 16), remark("rest")}
		b.Pages, b.Prints = []page.Page{p}, []page.Print{{Page: p.ID, Choice: -1, Variant: "shelf", Faces: []string{"wall-a4"}}}
		prints, _ := placed(t, b)
		var order []string
		for k, sheet := range prints[0].Sheets {
			for i, block := range sheet.Tables {
				var said page.Text
				switch block := block.(type) {
				case page.Table:
					said = block.Caption
				case page.Para:
					said = block.Text
				}
				name, isRemark := strings.CutSuffix(said[0].Text, ", remark")
				require.False(t, isRemark && i == 0 && k > 0, "%s: its remark begins a sheet", name)
				if len(order) == 0 || order[len(order)-1] != name {
					order = append(order, name)
				}
			}
		}
		require.Equal(t, []string{"dead", "ends", "good", "rest"}, order, "%d rows", rows)
	}
}

// TestPlaceFaults: a print of what is not there is a mistake of the program and not a page less.
func TestPlaceFaults(t *testing.T) {
	for why, pr := range map[string]page.Print{
		"of a page that is not in the binder": {Page: "mix/none", Faces: []string{"wall-a4"}},
		"of a choice that page":               {Page: "mix/film-developer", Choice: 99, Faces: []string{"wall-a4"}},
		"a face that the theme has not":       {Page: "mix/film-developer", Faces: []string{"wall-none"}},
	} {
		b := fixture.Binder()
		b.Prints = []page.Print{pr}
		_, _, err := papers(t, b).Place()
		require.ErrorContains(t, err, why)
	}
}

// TestHeight: more words are never reckoned lower, nor is larger type.
func TestHeight(t *testing.T) {
	b := fixture.Binder()
	s := papers(t, b)
	for _, name := range []string{"wall-a4", "wall-a6", "binder"} {
		f, ok := s.Face(name)
		require.True(t, ok)
		for _, p := range b.Pages[1:3] {
			v := s.binder.View(p, f, 0)
			for i, scale := range f.Scale[1:] {
				require.Greater(t, Height(v, f.Scale[i]), Height(v, scale), "%s on %s", p.ID, name)
			}
			more := p
			more.Never = append(slices.Clone(p.Never), page.List{Items: []page.Text{page.Say(page.W("leave it alone"))}})
			for range 20 {
				more.Never = append(more.Never, more.Never[len(more.Never)-1])
			}
			require.Greater(t, Height(s.binder.View(more, f, 0), 1), Height(v, 1), "%s on %s", p.ID, name)
		}
	}
}

func TestCSSString(t *testing.T) {
	for said, want := range map[string]string{
		`Lab`: `"Lab"`, `the "dark" room`: `"the \"dark\" room"`, `a\b`: `"a\\b"`, "a\nb": `"a\a b"`, `</style>`: `"\3c /style>"`,
	} {
		require.Equal(t, want, cssString(said))
	}
}
