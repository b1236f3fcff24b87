package build_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/procedures/page"
)

// boughtLab works a small lab out on a day; a pack that is past its date is a warning, no error.
func boughtLab(t *testing.T, store, product, use string, more ...string) *build.Result {
	t.Helper()
	files := map[string]string{
		"lab.toml": "[lab]\nname = \"Test\"\nday = 2026-03-14\n[tank.double]\nfill = \"600 mL\"\ntakes = { 135 = 2 }\n" +
			"[house]\norder_lead = \"1 month\"\norder_cover = \"2 months\"\n[use]\n" + use,
		"materials/film.toml":  "name = \"a film\"\nbase = \"film\"\nformats = [\"135-36\", \"120\"]\n",
		"materials/paper.toml": "name = \"a paper\"\nbase = \"resin-coated\"\nformats = [\"20x25\"]\n",
		"processes/film.toml":  "name = \"Film\"\nbase = \"film\"\n[[step]]\nid = \"fix\"\nbath = \"thing.film\"\ntime = \"5:00\"\n",
		"processes/print.toml": "name = \"Print\"\nbase = \"resin-coated\"\n[[step]]\nid = \"fix\"\nbath = \"thing.paper\"\ntime = \"1:00\"\n",
		"products/thing.toml":  product,
		"store.toml":           store,
	}
	for i := 0; i+1 < len(more); i += 2 {
		files[more[i]] = more[i+1]
	}
	r, err := build.Work(options(folder(files)))
	require.NoError(t, err)
	require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
	return r
}

var ruled = regexp.MustCompile(`[-=]{4,}`)

// plainCard is a card as plain text, without its rules.
func plainCard(t *testing.T, r *build.Result, id string) string {
	t.Helper()
	return ruled.ReplaceAllString(cardText(t, r, id), "|")
}

// concentrate is a litre of a fixer that is used for film at 1+4 and for prints at 1+9.
const concentrate = `name = "a fixer"
role = "fixer"
state = "liquid"
pack = { holds = "1 L", price = "20.00 EUR" }
keeps = { full = "24 months", part = "6 months" }
yields = [ { strength = "film", count = "50 film.135-36", says = "supplier" } ]
[strength.film]
from = "supplied"
dilute = "1+4"
use = "re-use"
keeps = { full = "1 month" }
limits = [ { by = "rolls", most = "10 rolls/L" } ]
[strength.paper]
from = "supplied"
dilute = "1+9"
use = "re-use"
keeps = { full = "1 month" }
limits = [ { by = "count", of = "paper.20x25", most = "40 /L" } ]
`

// bag is a bag that is made up whole, and then keeps ninety days.
const bag = `name = "a bag"
role = "fixer"
state = "powder"
pack = { holds = "500 g", price = "15.00 EUR" }
[makes]
stock = "1 L"
divide = "no"
[strength.stock]
keeps = { full = "90 days" }
[strength.film]
dilute = "1+9"
use = "re-use"
keeps = { tray = "24 h" }
limits = [ { by = "rolls", most = "10 rolls/L" } ]
[strength.paper]
dilute = "1+9"
use = "re-use"
`

// TestOrdersOfTheStore: what is past its date is no stock, what gets too old is bought as often
// as it does, and a pack is as large as the file of the product says. Plain arithmetic: three
// months' work is wanted, one until it comes and two that it is to last.
func TestOrdersOfTheStore(t *testing.T) {
	const film, both = "film = [\"10 film.135-36\"]\n", "film = [\"10 film.135-36\"]\nprint = [\"80 paper.20x25\"]\n"
	bagIn := func(left, best string) string {
		return "[[pack]]\nof = \"thing\"\nlot = \"" + best + "\"\nleft = \"" + left + "\"\nbest_before = " + best + "\n"
	}
	for _, c := range []struct {
		name, store, product, use string
		row, front                []string
		notFront                  string
	}{
		// A litre of film fixer for ten rolls takes 200 ml, two of paper fixer for eighty prints 200 ml.
		{"the pack of the product's own file", bagIn("1 L", "2028-01-01"), concentrate, both,
			[]string{"A fixer 400 ml 1000 ml 200 ml 1 20.00 EUR"}, []string{"to buy now: 1"}, "past their best-before"},
		{"enough stands there", bagIn("1200 mL", "2028-01-01"), concentrate, both,
			[]string{"A fixer 400 ml 1200 ml 0 ml 0"}, []string{"to buy now: 0"}, "past their best-before"},
		{"past its date it is no stock", bagIn("1200 mL", "2026-03-13"), concentrate, both,
			[]string{"A fixer 400 ml 0 ml; past the best-before, not counted: 1 1200 ml 2 40.00 EUR"},
			[]string{"to buy now: 1", "past their best-before: ask first: 1: a fixer, 2026-03-13"}, ""},
		{"on the day itself it is good", bagIn("1200 mL", "2026-03-14"), concentrate, both,
			[]string{"A fixer 400 ml 1200 ml 0 ml 0"}, []string{"to buy now: 0"}, "past their best-before"},
		{"only a pack that is good counts", bagIn("1200 mL", "2026-03-13") + bagIn("100 mL", "2028-01-01"), concentrate, both,
			[]string{"A fixer 400 ml 100 ml; past the best-before, not counted: 1 1100 ml 2 40.00 EUR"}, []string{"to buy now: 1"}, ""},
		{"nobody has written what is left", "", concentrate, both,
			[]string{"A fixer 400 ml not known: ____ ask first"},
			[]string{"to buy now: 0", "nobody can tell whether to buy: ask first: 1: a fixer"}, "past their best-before"},
		// Little work: a bottle of a litre that keeps half a year is a sixth of a litre each month.
		{"a bottle that gets too old", bagIn("400 mL", "2028-01-01"), strings.ReplaceAll(concentrate, "1 month", "24 months"), "film = [\"1 film.135-36\"]\n",
			[]string{"A fixer 167 ml, by age: a pack that is begun keeps 6 months (opened); the work alone takes 20 ml 400 ml 100 ml 1 20.00 EUR"},
			[]string{"to buy now: 1"}, ""},
		// Ten rolls take a tenth of a pack, but every ninety days one is too old: 30.4 / 90 of one.
		{"a bag that gets too old", bagIn("500 g", "2028-01-01"), bag, film,
			[]string{"A bag 0.4 packs, by age: a pack that is begun keeps 90 days (full); the work alone takes 0.1 packs 1.0 packs 0.1 packs 1 15.00 EUR"},
			[]string{"to buy now: 1"}, "past their best-before"},
		{"a bag that is used up before", bagIn("1500 g", "2028-01-01"), bag, "film = [\"100 film.135-36\"]\n",
			[]string{"A bag 1.0 packs 3.0 packs 0.0 packs 0"}, []string{"to buy now: 0"}, "past their best-before"},
		{"a bag past its date", bagIn("500 g", "2025-01-01"), bag, film,
			[]string{"0.0 packs; past the best-before, not counted: 1 1.1 packs 2 30.00 EUR"},
			[]string{"to buy now: 1", "past their best-before: ask first: 1"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := boughtLab(t, c.store, c.product, c.use)
			board, front := plainCard(t, r, "board/shopping"), plainCard(t, r, "index")
			for _, row := range c.row {
				require.Contains(t, board, row)
			}
			for _, line := range c.front {
				require.Contains(t, front, line)
			}
			if c.notFront != "" {
				require.NotContains(t, front, c.notFront)
			}
		})
	}
}

// twoBottles is a kit of which a part may be made up: six millilitres of each for a film.
const twoBottles = `name = "two bottles"
role = "developer"
pack = { price = "22.50 EUR" }
keeps = { part = "24 months" }
yields = [ { strength = "stock", count = "83 film.135-36", says = "supplier" } ]
[part.a]
name = "bottle A"
state = "liquid"
pack = { holds = "500 mL" }
contains = { hydroquinone = "4..6 % w/w", water = "rest" }
KEEPS
[part.a.hazards]
classes = ["Eye Dam. 1"]
note = "a word about bottle A"
[part.b]
name = "bottle B"
state = "liquid"
density = "1.1 g/mL"
pack = { holds = "500 mL" }
[makes]
stock = "25 L"
divide = "yes"
[[step]]
add = "a"
amount = "500 mL"
[[step]]
add = "b"
amount = "500 mL"
[strength.stock]
use = "one-shot"
needs = "300 mL/roll"
`

const develop = "name = \"Film\"\nbase = \"film\"\n[[step]]\nid = \"develop\"\nbath = \"thing.stock\"\ntime = \"9:00\"\n"

// TestWhatEndsAPack: a pack ends by its age or by its work, and all strengths that are made of
// it work together. Plain arithmetic beside each case; the life of an opened bottle is what the
// label of such a product says. Common practice, no source.
func TestWhatEndsAPack(t *testing.T) {
	ofKit := func(keeps string) string { return strings.Replace(twoBottles, "KEEPS", keeps, 1) }
	for _, c := range []struct {
		name, product, use string
		want, not          []string
		process            string
	}{
		// 18 films take 360 ml and 40 prints 100 ml of the litre in a month: 66 days.
		{"several strengths, used up before", concentrate, "film = [\"18 film.135-36\"]\nprint = [\"40 paper.20x25\"]\n",
			[]string{"uses it up in 66 days, and once it is begun it keeps 6 months (opened). So it is used up before it is too old.",
				"a film, 135-36 50, by this lab’s limit in rolls and the supplier’s word this lab’s limit in rolls 0.40 EUR 0.40 EUR",
				"a film, 120 50, by this lab’s limit in rolls and the supplier’s word not used in this lab 0.40 EUR –",
				"a paper, 20×25 400, by this lab’s count this lab’s count 0.05 EUR 0.05 EUR",
				"a pack makes 5.0 L or 10.0 L"},
			[]string{"age ends it first", "is not known"}, ""},
		// 2 films take 40 ml and 8 prints 20 ml: in half a year 360 ml, 12 films and 48 prints.
		// What is left is paid for as well: 40 and 5 cents by 0.36.
		{"several strengths, too old before", strings.ReplaceAll(concentrate, "\"1 month\"", "\"24 months\""),
			"film = [\"2 film.135-36\"]\nprint = [\"8 paper.20x25\"]\n",
			[]string{"uses it up in 507 days", "So age ends it first, when 36 % of it is used.",
				"and the supplier’s word age, after 12 0.40 EUR 1.11 EUR", "this lab’s count age, after 48 0.05 EUR 0.14 EUR"},
			[]string{"is not known"}, ""},
		// A litre of paper fixer for 4 prints a month is a month old after 4: a litre of 2 EUR.
		{"the bath gets too old before the pack", concentrate, "film = [\"18 film.135-36\"]\nprint = [\"4 paper.20x25\"]\n",
			[]string{"this lab’s count age of the bath, after 4 in each litre 0.05 EUR 0.50 EUR"}, []string{"age ends it first"}, ""},
		{"nobody has written how long an opened one keeps", strings.Replace(concentrate, "keeps = { full = \"24 months\", part = \"6 months\" }\n", "", 1),
			"film = [\"18 film.135-36\"]\nprint = [\"4 paper.20x25\"]\n",
			[]string{"How long a pack lasts here is not known: nobody has written how long a pack keeps once it is begun."},
			[]string{"here, ended by"}, ""},
		// 18 films alone use a litre up in 85 days: whatever else is done, it does not get too old.
		{"what is counted is enough to tell", concentrate, "film = [\"18 film.135-36\"]\n",
			[]string{"nobody has written under [use] in lab.toml how much a month takes of paper. All else uses it up in 85 days",
				"So it is used up before it is too old."}, []string{"is not known"}, ""},
		{"nobody has written what a month takes of one", strings.ReplaceAll(concentrate, "\"1 month\"", "\"24 months\""),
			"film = [\"2 film.135-36\"]\n",
			[]string{"is not known: nobody has written under [use] in lab.toml how much a month takes of paper."},
			[]string{"here, ended by"}, ""},
		// 3 films take 900 ml of 25 L: in a year 36 of the 83, and 22.50 for them.
		{"a kit that is made up in parts gets too old", ofKit("keeps = { part = \"12 months\" }"), "film = [\"3 film.135-36\"]\n",
			[]string{"Keeps - bottle A: opened 12 months - supplied: opened 24 months", "keeps 12 months (opened): bottle A keeps shortest. So age ends it first, when 43 % of it is used.",
				"83, by what the pack makes and the supplier’s word age, after 36 0.27 EUR 0.63 EUR"},
			[]string{"at any rate"}, develop},
		{"the same by the word for all its bottles", ofKit(""), "film = [\"3 film.135-36\"]\n",
			[]string{"keeps 24 months (opened). So age ends it first, when 86 % of it is used.", "age, after 72"},
			[]string{"keeps shortest"}, develop},
		{"a kit that is used up before", ofKit("keeps = { part = \"12 months\" }"), "film = [\"10 film.135-36\"]\n",
			[]string{"So it is used up before it is too old.", "the supplier’s word what the pack makes 0.27 EUR 0.27 EUR"},
			[]string{"age, after"}, develop},
		{"a kit of whose bottles nobody has said how long they keep",
			strings.Replace(ofKit("keeps = { part = \"12 months\" }"), "keeps = { part = \"24 months\" }\n", "", 1),
			"film = [\"3 film.135-36\"]\n", []string{"nobody has written how long a pack keeps once it is begun"},
			[]string{"age, after", "here, ended by"}, develop},
		// The stock of a whole bag keeps 90 days: 10 of a month's films are 29 of them, and 5 rolls of the other size 14.
		{"each row says its own share", bag, "film = [\"10 film.135-36\", \"5 film.120\"]\n",
			[]string{"a film, 135-36 100, by this lab’s limit in rolls age, after 29", "a film, 120 100, by this lab’s limit in rolls age, after 14"},
			nil, "name = \"Film\"\nbase = \"film\"\n[[step]]\nid = \"fix\"\nbath = \"thing.film\"\ntime = \"5:00\"\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			more := []string{}
			if c.process != "" {
				more = []string{"processes/film.toml", c.process, "processes/print.toml", "name = \"Print\"\nbase = \"resin-coated\"\n[[step]]\nid = \"wash\"\nflow = \"1 L/min\"\ntime = \"2:00\"\n"}
			}
			text := plainCard(t, boughtLab(t, "", c.product, c.use, more...), "product/thing")
			for _, words := range c.want {
				require.Contains(t, text, words)
			}
			for _, words := range c.not {
				require.NotContains(t, text, words)
			}
		})
	}
}

// TestKeepsOfAPart: an opened bottle of a kit keeps no longer than a sealed one either.
func TestKeepsOfAPart(t *testing.T) {
	for keeps, fault := range map[string]bool{"full = \"6 months\", part = \"12 months\"": true, "full = \"12 months\", part = \"12 months\"": false} {
		r, err := build.Work(options(folder(map[string]string{"lab.toml": "[lab]\nname = \"Test\"\n",
			"products/thing.toml": strings.Replace(strings.Replace(twoBottles, "KEEPS", "keeps = { "+keeps+" }", 1), "film.135-36", "film.120", 1),
			"materials/film.toml": "name = \"a film\"\nbase = \"film\"\nformats = [\"120\"]\n",
			"processes/film.toml": develop})))
		require.NoError(t, err)
		require.Equal(t, fault, r.Faults.HasErrors(), "%s: %v", keeps, r.Faults)
	}
}

// labelled is a powder of which everything is typed that its bag and its sheet say.
const labelled = `name = "a powder"
role = "clearing"
state = "powder"
note = "a word of this lab"
pack = { holds = "450 g", price = "14.20 EUR" }
sheet = { edition = 2025-01-20, speaks_of = "powder" }
contains = { "sodium-sulfite.anhydrous" = "70..80 % w/w", "sodium-metabisulfite" = "10..20 % w/w", "a salt" = "<5 % w/w" }
keeps = { full = "36 months", part = "12 months", low = "12 months" }
[hazards]
classes = ["Eye Dam. 1", "Acute Tox. 4 (oral)"]
extra = ["EUH031"]
assessed = { by = "supplier", on = 2025-01-20 }
note = "section 13: not into drains"
[makes]
stock = "3.5 L"
divide = "no"
[strength.stock]
keeps = { full = "90 days" }
[strength.film]
dilute = "1+4"
ph = "8.5"
use = "re-use"
limits = [ { by = "rolls", most = "36 rolls/L" } ]
[strength.paper]
dilute = "1+9"
use = "re-use"
`

// TestWhatIsTyped: the card of a product shows the packs that stand here, what is in it, its pH
// and the supplier's word, and counts all holes of its file; no word of them is dropped.
func TestWhatIsTyped(t *testing.T) {
	pack := func(best string) string {
		return "[[pack]]\nof = \"thing\"\nleft = \"450 g\"\nlot = \"7714\"\nopened = 2026-02-01\nbest_before = " + best + "\n"
	}
	good := boughtLab(t, pack("2026-03-14"), labelled, "film = [\"18 film.135-36\"]\n")
	text := plainCard(t, good, "product/thing")
	for _, words := range []string{
		"In the store today - A powder, lot 7714: 450 g left, opened 2026-02-01, best before 2026-03-14",
		"In it, by its sheet - a salt 0–5 % w/w - sodium metabisulfite 10–20 % w/w - sodium sulfite, anhydrous 70–80 % w/w",
		"pH as written - film: 8.5",
		"Beside the classes - section 13: not into drains. So says the supplier.",
		"a word of this lab",
		// As from the sheet, not from memory.
		"toxic gas (EUH031).",
		"ask: how long stock keeps opened", "ask: how long film keeps", "ask: how long paper keeps",
	} {
		require.Contains(t, text, words)
	}
	require.NotContains(t, text, "Use none of it")
	var classes []string
	for _, p := range good.Binder.Pages {
		for _, b := range p.Why {
			if l, ok := b.(page.List); ok && p.ID == "product/thing" {
				for _, line := range l.Items {
					words := ""
					for _, in := range line {
						words += in.Text
					}
					classes = append(classes, words)
				}
			}
		}
	}
	require.Contains(t, classes, "Acute Tox. 4 (oral), Eye Dam. 1: a powder", "what brings several is named once")
	require.Contains(t, classes, "EUH031: a powder, sodium metabisulfite")
	require.Contains(t, plainCard(t, good, "protect/thing"), "Beside the classes: section 13: not into drains. So says the supplier.")
	past := plainCard(t, boughtLab(t, pack("2026-03-13"), labelled, "film = [\"18 film.135-36\"]\n"), "product/thing")
	require.Contains(t, past, "! Use none of it: A powder, lot 7714: 450 g left, opened 2026-02-01, past its best-before of 2026-03-13. ____ ask first")
	require.NotContains(t, past, "best before 2026-03-13")
	liquid := plainCard(t, boughtLab(t, "", concentrate, "film = [\"18 film.135-36\"]\n"), "product/thing")
	require.Contains(t, liquid, "ask: its density")
	kit := boughtLab(t, pack("2028-01-01")[:0], strings.Replace(twoBottles, "KEEPS", "", 1), "film = [\"3 film.135-36\"]\n",
		"processes/film.toml", develop, "processes/print.toml", strings.Replace(develop, "film", "resin-coated", 1))
	text = plainCard(t, kit, "product/thing")
	for _, words := range []string{"a kit: bottle A 500 ml, bottle B 500 ml", "In bottle A, by its sheet - hydroquinone 4–6 % w/w - water: the rest",
		"Beside the classes - Of bottle A: a word about bottle A", "ask: the density of bottle A"} {
		require.Contains(t, text, words)
	}
	require.NotContains(t, text, "the density of bottle B", "somebody has written it")
	require.Contains(t, plainCard(t, kit, "protect/thing"), "Of bottle A: a word about bottle A")
}

// TestNoMaterial: where limits are written and no film is, the film is what is missing.
func TestNoMaterial(t *testing.T) {
	files := map[string]string{"lab.toml": "[lab]\nname = \"Test\"\n", "products/thing.toml": concentrate}
	card := func() string {
		r, err := build.Work(options(folder(files)))
		require.NoError(t, err)
		require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
		return plainCard(t, r, "product/thing")
	}
	files["products/thing.toml"] = strings.Replace(concentrate, "yields = [ { strength = \"film\", count = \"50 film.135-36\", says = \"supplier\" } ]\n", "", 1)
	files["products/thing.toml"] = strings.Replace(files["products/thing.toml"], ", of = \"paper.20x25\", most = \"40 /L\"", ", most = \"40 /L\"", 1)
	files["products/thing.toml"] = files["products/thing.toml"][:strings.Index(files["products/thing.toml"], "[strength.paper]")]
	require.Contains(t, card(), "a limit or a yield is written, and no film or paper of this lab that it could be counted for")
	files["products/thing.toml"] = strings.Replace(files["products/thing.toml"], "holds = \"1 L\", ", "", 1)
	require.Contains(t, card(), "nobody has written how much a pack holds or makes")
	files["products/thing.toml"] = strings.Replace(files["products/thing.toml"], "limits =", "# limits =", 1)
	require.Contains(t, card(), "nobody has written a yield or a limit that can be counted")
}

// TestProductOnPaper: the wall card of a product is one sheet, with what it does to people and
// where it goes before what it costs.
func TestProductOnPaper(t *testing.T) {
	archive := map[string]string{
		"lab.toml":             "[lab]\nname = \"Test\"\nday = 2026-03-14\n[use]\nfilm = [\"18 film.135-36\"]\n",
		"materials/film.toml":  "name = \"a film\"\nbase = \"film\"\nformats = [\"135-36\", \"120\"]\n",
		"processes/film.toml":  "name = \"Film\"\nbase = \"film\"\n[[step]]\nid = \"fix\"\nbath = \"thing.film\"\ntime = \"5:00\"\n",
		"products/thing.toml":  labelled,
		"materials/paper.toml": "name = \"a paper\"\nbase = \"fibre\"\nformats = [\"20x25\"]\n",
	}
	r, err := build.Bind(options(folder(archive)))
	require.NoError(t, err)
	require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
	for _, f := range r.Fits {
		require.NotContains(t, f.Cards, "product/thing")
	}
	var sheet string
	for _, f := range r.Files {
		if f.Path == "wall/a4/product-thing.html" {
			sheet = strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(string(f.Bytes), " ")), " ")
		}
	}
	at := 0
	for _, words := range []string{"goggles", "How it is used here", "Wear", "Causes serious eye damage", "A small spill",
		"More, or a smell of gas", "section 13: not into drains", "Keeps", "When it is spent",
		"What one pack does", "0.27", "Supplier’s sheet", "How it is made up", "In it", "pH as written"} {
		i := strings.Index(sheet[at:], words)
		require.GreaterOrEqual(t, i, 0, "%s: %s", words, sheet)
		at += i
	}
}

// TestByStrength: what a product does to people and what to wear, of what is bought and of each
// strength: how that is known is said, and nothing twice.
func TestByStrength(t *testing.T) {
	r := demonstration(t)
	for id, want := range map[string][]string{
		"product/clearing-powder": {
			"Supplied - DANGER, by its sheet - Wear: extractor fan on, goggles, gloves, FFP3 dust mask - Causes serious eye damage (H318). Contact with acids liberates toxic gas (EUH031).",
			"Stock - WARNING, worked out - Wear: extractor fan on, goggles, gloves, tongs - Causes serious eye irritation (H319).",
			"Working - Not classified, worked out - Wear: extractor fan on - Contact with acids liberates toxic gas (EUH031).",
		},
		"product/selenium-toner": {
			"Supplied - WARNING, by its sheet - Wear:", "liberates toxic gas (invented) (EUH031).",
			"Protect, strong - WARNING, as if undiluted - Protect: Wear: extractor fan on, goggles, gloves, tongs, apron, a second person nearby - Strong: Wear: extractor fan on, goggles, gloves, tongs, a second person nearby - As dangerous as ‘supplied’.",
		},
		"product/print-developer-kit": {
			"Supplied - DANGER, as if undiluted -", "Stock - No signal word, worked out -",
			"May produce an allergic reaction: hydroquinone (EUH208).", "liberates toxic gas (memory) (EUH031).",
		},
		"product/wetting-agent": {"Supplied - WARNING, by its sheet - Wear: goggles, gloves - Causes serious eye irritation (H319). Stock - WARNING, as if undiluted -"},
		"product/stop-tablets":  {"Stock - Not classified, worked out - Nothing beyond normal care"},
	} {
		text := plainCard(t, r, id)
		for _, words := range want {
			require.Contains(t, text, words, id)
		}
	}
	clear := plainCard(t, boughtLab(t, "", strings.Replace(concentrate, "[strength.film]", "density = \"1.1 g/mL\"\ncontains = { \"alcohol ethoxylate\" = \"1..3 % w/w\", water = \"rest\" }\n[hazards]\nclasses = []\nassessed = { by = \"supplier\", on = 2026-01-10, sheet = \"its sheet\" }\n[strength.film]", 1), ""), "product/thing")
	require.Contains(t, clear, "Supplied - Not classified, by its sheet")
	dark := plainCard(t, boughtLab(t, "", strings.Replace(concentrate, "[strength.film]", "density = \"1.1 g/mL\"\n[strength.film]", 1), ""), "product/thing")
	require.Contains(t, dark, "Hazards not looked up: a fixer. Ask first.")
	require.NotContains(t, dark, "No signal word")
}

// TestDustOfAProduct: what another list says of a substance counts for the dust of a bought powder
// too, and what may be acid counts as acid where nobody has written its pH.
func TestDustOfAProduct(t *testing.T) {
	text := plainCard(t, boughtLab(t, "", labelled, "film = [\"18 film.135-36\"]\n"), "board/people")
	require.Contains(t, text, "if inhaled (Resp. Sens. 1): sodium metabisulfite A powder, supplied Nobody knows how acid it is, and acid with sulfite in it gives off sulfur dioxide A powder, supplied, stock, paper",
		"its film strength has a pH of 8.5")
}
