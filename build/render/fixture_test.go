package render

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"
	"testing"

	"wetside/build/theme"
	"wetside/procedures"
	"wetside/procedures/cards"
	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/themes"
)

// book collects the figures of the fixture.
type book struct{ figures []*figure.Record }

func (b *book) note(c figure.Core, f figure.Face) *figure.Record {
	b.figures = append(b.figures, figure.Of(c, f))
	return b.figures[len(b.figures)-1]
}

// ledger is the book as a binder has it.
func (b *book) ledger() *figure.Ledger {
	l := figure.NewLedger()
	for _, f := range b.figures {
		l.Enter(f)
	}
	return l
}

// get is a figure that was added before.
func (b *book) get(id string) *figure.Record {
	for _, f := range b.figures {
		if f.ID == id {
			return f
		}
	}
	panic("the fixture has no figure " + id)
}

func (b *book) add(id string, kind figure.Kind, shown, unit string, by figure.Origin) *figure.Record {
	rounded := shown
	if m, s, ok := strings.Cut(shown, ":"); ok {
		var x, y int
		fmt.Sscan(m, &x)
		fmt.Sscan(s, &y)
		rounded = fmt.Sprint(x*60 + y)
	}
	return b.note(figure.Core{ID: id, Origin: by}, figure.Face{Kind: kind, Name: id, Shown: shown, Rounded: rounded, Unit: unit})
}

func (b *book) amount(id, shown, unit string) *figure.Record {
	return b.add(id, figure.KindAmount, shown, unit, figure.House)
}

func (b *book) time(id, shown string) *figure.Record {
	return b.add(id, figure.KindTime, shown, "s", figure.House)
}

func (b *book) refuse(id, why string) *figure.Record {
	return b.note(figure.Core{ID: id}, figure.Face{Kind: figure.KindTime, Why: why})
}

func (b *book) series(id string, list ...float64) *figure.Record {
	shown := strings.Trim(fmt.Sprint(list), "[]")
	return b.note(figure.Core{ID: id, Series: list, Origin: figure.House}, figure.Face{Kind: figure.KindSeries, Shown: shown, Rounded: shown, Unit: "s"})
}

// each makes one figure for every batch.
func (b *book) each(id string, tags, shown []string, unit string) []*figure.Record {
	var ids []*figure.Record
	for i, tag := range tags {
		ids = append(ids, b.amount(id+"@"+tag, shown[i], unit))
	}
	return ids
}

func fixture() procedures.Binder {
	b := &book{}
	pages := []page.Page{front(b), mixing(b), process(b), emergency(), notation(b), bottle(b), stop(b), shelfBoard(b)}
	return procedures.Binder{
		Lab: "Sandhythe Community Darkroom", Day: "2026-03-14", Demonstration: true, Pages: pages, Figures: b.figures, Workings: cards.Workings(b.ledger().Records()),
		Groups: []page.Group{{ID: "mix", Word: "Mix", Sub: "what to weigh, in what order"}, {ID: "process", Word: "Process", Sub: "steps against the clock"}, {ID: "label", Word: "Labels", Sub: "for bottles"}, {ID: "board", Word: "Boards", Sub: "for the wall"}},
		Prints: []page.Print{
			{Page: "mix/film-developer", Choice: 1, Variant: "film-developer.stock+1000ml", Faces: []string{"wall-a5"}},
			{Page: "process/film-negative", Choice: 0, Variant: "film-negative+film-400.double", Faces: []string{"wall-a4", "wall-a5", "strip"}},
			{Page: "shelf/index", Choice: -1, Variant: "shelf", Faces: []string{"wall-a4"}},
		},
	}
}

func front(b *book) page.Page {
	return page.Page{
		ID: "index", Kind: "front", KindLine: "Binder", Title: "Sandhythe Community Darkroom",
		Lead:   page.Say(page.N("the room behind the library")),
		Before: []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Not past the curtain."), page.W(" A phone fogs film and paper."))}}},
		Do: []page.Block{
			page.Links{Label: page.Say(page.W("Mix")), Entries: []page.Entry{
				{Card: "mix/film-developer", Title: "Film developer", Sub: page.Say(page.W("stock"))},
				{Card: "mix/stop", Title: "Citric stop", Sub: page.Say(page.W("stock"))},
			}},
			page.Links{Label: page.Say(page.W("Process")), Entries: []page.Entry{{Card: "process/film-negative", Title: "Film negative", Sub: page.Say(page.W("film in a tank"))}}},
			page.Links{Label: page.Say(page.W("Boards")), Entries: []page.Entry{{Card: "board/notation", Title: "How dilutions are written"}, {Card: "board/emergency", Title: "Somebody is hurt"}}},
		},
		Never: []page.Block{page.List{Items: []page.Text{page.Say(page.W("work alone with strong alkali, bleach or toner"))}}},
		Why:   []page.Block{page.HolesList{Items: []page.Hole{{What: "who to call", Until: "the emergency card shows a gap", Key: "emergency in local.toml"}}}},
	}
}

func mixing(b *book) page.Page {
	const s = "film-developer.stock/"
	tags := []string{"500ml", "1000ml", "2000ml"}
	fill := b.each(s+"made", tags, []string{"500", "1000", "2000"}, "ml")
	start := b.each(s+"start", tags, []string{"375", "750", "1500"}, "ml")
	b.add(s+"start.temperature", figure.KindTemperature, "45–50", "°C", figure.House)
	b.add(s+"stand", figure.KindCount, "12", "hours", figure.Memory)
	b.add(s+"cost", figure.KindMoney, "1.10", "EUR", figure.Invented)
	b.amount(s+"sulfite", "95", "g")
	row := func(id string, shown []string, unit string) page.Text {
		return page.Say(page.F(b.each(s+"weigh."+id, tags, shown, unit)...))
	}
	steps := page.Steps{Rows: []page.Step{
		{ID: "pinch", What: page.Say(page.W("Sodium sulfite, anhydrous")), Amount: row("pinch", []string{"0.50", "1.00", "2.00"}, "g"), Device: page.Say(page.N("fine scale")),
			Note: []page.Text{page.Say(page.W("A pinch first. It is counted in the "), page.F(b.get(s+"sulfite")), page.W("."))}, Tick: true},
		{ID: "mq", What: page.Say(page.W("Methylaminophenol sulfate")), Amount: row("methylaminophenol", []string{"1.10", "2.20", "4.40"}, "g"), Device: page.Say(page.N("fine scale")),
			Caution: []page.Text{page.Say(page.W("Sensitiser: no dust."))},
			Note:    []page.Text{page.Say(page.W("All dissolved before the next, or it never will."))}, Tick: true},
		{ID: "rest", What: page.Say(page.W("Sodium sulfite, anhydrous")), Amount: row("sulfite-rest", []string{"47.0", "94.0", "188.0"}, "g"), Device: page.Say(page.N("bench scale")),
			Note: []page.Text{page.Say(page.W("In three lots, stirring each one clear."))}, Tick: true},
		{ID: "hq", What: page.Say(page.W("Hydroquinone")), Amount: row("hydroquinone", []string{"2.25", "4.50", "9.00"}, "g"), Device: page.Say(page.N("fine scale")),
			Caution: []page.Text{page.Say(page.W("Sensitiser: no dust."))}, Tick: true},
		{ID: "borax", What: page.Say(page.W("Borax, decahydrate")), Amount: row("borax", []string{"1.50", "3.00", "6.00"}, "g"), Device: page.Say(page.N("fine scale")),
			Note: []page.Text{page.Say(page.W("Jar says pentahydrate? Stop: other grams."))}, Tick: true},
		{ID: "bromide", What: page.Say(page.N("Potassium bromide 10 %")), Amount: row("bromide", []string{"1.0", "2.0", "4.0"}, "ml"), Device: page.Say(page.N("syringe")),
			Note: []page.Text{page.Say(page.W("Too little to weigh."))}, Tick: true},
		{ID: "fill", What: page.Say(page.W("Cold water "), page.S("to the mark"), page.W(", stir")), Amount: page.Say(page.F(fill...)), Tick: true, Mark: true,
			Note: []page.Text{page.Say(page.W("Let it stand "), page.F(b.get(s+"stand")), page.W(" before first use; straw, clear."))}},
	}}
	p := page.Page{
		ID: "mix/film-developer", Kind: "mixing", KindLine: "Mixing card", Title: "Film developer", Lead: page.Say(page.N("MQ borax, stock")), Role: page.Developer, Chosen: 1,
		Key: []page.Block{
			page.Amount{Label: page.Say(page.W("make")), Value: page.Say(page.F(fill...))},
			page.Amount{Label: page.Say(page.W("start with tap water")), Value: page.Say(page.F(start...))},
			page.Amount{Label: page.Say(page.W("at")), Value: page.Say(page.F(b.get(s + "start.temperature")))},
		},
		Before: []page.Block{page.Gear{Job: "to weigh and mix", Items: []page.GearItem{
			{Sign: "M009", Word: "gloves", Why: page.Say(page.N("methylaminophenol sulfate, hydroquinone"))},
			{Sign: "M004", Word: "goggles", Why: page.Say(page.N("hydroquinone"))},
			{Sign: "M016", Word: "mask while weighing", Why: page.Say(page.N("hydroquinone"))},
			{Word: "extract on, no draught on the pan"},
		}, Note: page.Say(page.W("Every hazard of the ingredients; strength not yet considered. The supplier’s sheet goes first."))}},
		Do:    []page.Block{steps},
		Never: []page.Block{page.List{Items: []page.Text{page.Say(page.W("start at the full "), page.F(fill...)), page.Say(page.W("skip the pinch")), page.Say(page.W("let acid near it"))}}},
		Why: []page.Block{
			page.Hazards{Status: "every ingredient’s", Signal: "Danger", Pictograms: []string{"GHS05", "GHS07", "GHS08", "GHS09"},
				Statements: []page.Text{page.Say(page.W("May cause an allergic skin reaction.")), page.Say(page.W("Causes serious eye damage."))},
				Note:       page.Say(page.W("Every hazard of the ingredients; strength not yet considered."))},
			page.Para{Text: page.Say(page.W("A litre of "), page.N("stock"), page.W(" costs "), page.F(b.get(s+"cost")), page.W("."))},
		},
		Record: []page.Block{page.List{Label: page.Say(page.W("keeps")), Items: []page.Text{
			page.Say(page.W("full "), page.F(b.add("film-developer/keeps.full", figure.KindCount, "180", "days", figure.House))),
			page.Say(page.W("opened "), page.F(b.add("film-developer/keeps.part", figure.KindCount, "60", "days", figure.House))),
			page.Say(page.W("below half "), page.F(b.add("film-developer/keeps.low", figure.KindCount, "30", "days", figure.House))),
		}}},
		Foot: page.Foot{Version: "3", Date: "2026-01-10", Written: "KH2", Review: "2027-01-10", Change: "borax corrected to 3.0 g", Vouched: []page.Vouch{{Origin: "memory", Count: 1}, {Origin: "invented", Count: 1}}},
		Was:  []string{"mix/old-film-developer"},
	}
	for i, tag := range tags {
		p.Choices = append(p.Choices, page.Choice{Variant: "film-developer.stock+" + tag, Label: page.Say(page.F(fill[i]))})
	}
	const w = "film-developer.working/"
	vessels := page.Table{ID: "working", Caption: page.Say(page.S("Working"), page.W(", "), page.N("1+1"), page.W(", one-shot")),
		Head: []page.Text{page.Say(page.W("vessel")), page.Say(page.N("stock")), page.Say(page.W("water to")), page.Say(page.W("measured in")), page.Say(page.W("serves"))},
		Rows: []page.Row{
			{Cells: []page.Cell{{Text: page.Say(page.N("single, 135"))}, {No: true, Refused: b.refuse(w+"draw@300ml", ""), Why: "not enough for one roll"}, {Text: page.Say(page.F(b.amount(w+"fill@300ml", "300", "ml")))}, {Text: page.Say(page.W("–"))}, {Text: page.Say(page.W("–"))}}},
			{Cells: []page.Cell{{Text: page.Say(page.N("double, 135")), Chosen: true}, {Text: page.Say(page.F(b.amount(w+"draw@600ml", "300", "ml")))}, {Text: page.Say(page.F(b.amount(w+"fill@600ml", "600", "ml")))}, {Text: page.Say(page.N("cylinder 500 ml"))}, {Text: page.Say(page.F(b.add(w+"rolls@600ml", figure.KindCount, "2", "rolls", figure.House)), page.W(", by the reels"))}}},
			{Cells: []page.Cell{{Text: page.Say(page.N("five, 135"))}, {Text: page.Say(page.F(b.amount(w+"draw@1500ml", "750", "ml")))}, {Text: page.Say(page.F(b.amount(w+"fill@1500ml", "1500", "ml")))}, {Text: page.Say(page.N("cylinder 1000 ml"))}, {Text: page.Say(page.F(b.add(w+"rolls@1500ml", figure.KindCount, "5", "rolls", figure.House)), page.W(", by the reels"))}}},
		},
		Note: page.Say(page.W("At least "), page.F(b.amount(w+"needs", "150", "ml a roll")), page.W(" of stock; the tank is filled whatever is loaded.")),
	}
	p.Tables = []page.Block{vessels}
	return p
}

func process(b *book) page.Page {
	const s = "film-negative/"
	tags := []string{"film-400,double", "film-100,double"}
	both := func(id string, kind figure.Kind, unit string, shown ...string) []*figure.Record {
		var ids []*figure.Record
		for i, tag := range tags {
			ids = append(ids, b.add(s+id+"@"+tag, kind, shown[i], unit, figure.Invented))
		}
		return ids
	}
	develop := both("time.develop", figure.KindTime, "s", "11:00", "9:00")
	drain := both("drain.develop", figure.KindTime, "s", "10:50", "8:50")
	first := b.add(s+"first.develop", figure.KindTime, "0:30", "s", figure.House)
	lasts := b.add(s+"lasts.develop", figure.KindTime, "0:10", "s", figure.House)
	marks := []*figure.Record{b.series(s+"marks@film-400", 60, 120, 180, 240, 300, 360, 420, 480, 540, 600), b.series(s+"marks@film-100", 60, 120, 180, 240, 300, 360, 420, 480)}
	temp := b.add(s+"temperature", figure.KindTemperature, "20.0", "°C", figure.House)
	within := b.add(s+"within", figure.KindTemperature, "1", "K", figure.House)
	full := b.amount(s+"fill", "600", "ml")
	clock := func(id string, shown ...string) page.Text {
		return page.Say(page.F(both("clock."+id, figure.KindTime, "s", shown...)...))
	}
	fills := func(id, shown string, what string) page.Text {
		return page.Say(page.F(b.amount(s+"draw."+id, shown, "ml")), page.W(" "+what+", water to "), page.F(full))
	}
	rows := []page.ClockRow{
		{ID: "develop", At: clock("develop", "0:00", "0:00"), Drain: page.Say(page.F(drain...)), Role: page.Developer, Word: page.Say(page.W("Develop")), Bath: fills("develop", "300", "stock"),
			Cue: page.Say(page.F(b.add(s+"turns.first", figure.KindCount, "6", "inversions", figure.House)), page.W(" in the first "), page.F(b.add(s+"turns.in", figure.KindTime, "30", "s", figure.House)), page.W(", tap twice; then "), page.F(b.add(s+"turns.then", figure.KindCount, "4", "", figure.House)), page.W(" at each full minute")),
			For: page.Say(page.F(develop...)), Ruler: page.Ruler{Length: develop, First: []*figure.Record{first}, Marks: marks, Lasts: []*figure.Record{lasts}, Drain: drain}},
		{ID: "stop", At: clock("stop", "11:00", "9:00"), Drain: page.Say(page.F(both("drain.stop", figure.KindTime, "s", "11:50", "9:50")...)), Role: page.Stop, Word: page.Say(page.W("Stop")), Bath: fills("stop", "30", "citric stop"),
			Cue: page.Say(page.W("keep moving, then leave")), For: page.Say(page.F(b.time(s+"time.stop", "1:00")))},
		{ID: "fix", At: clock("fix", "12:00", "10:00"), Drain: page.Say(page.F(both("drain.fix", figure.KindTime, "s", "14:50", "12:50")...)), Role: page.Fixer, Word: page.Say(page.W("Fix")), Bath: fills("fix", "120", "fixer"),
			Caution: []page.Text{page.Say(page.W("Vent after each turn."))},
			Cue:     page.Say(page.W("turn at once, then as in the developer")), For: page.Say(page.F(b.time(s+"time.fix", "3:00"))), ForNote: page.Say(page.W("or twice clearing, if longer"))},
		{ID: "wash", At: clock("wash", "15:00", "13:00"), Role: page.Wash, Word: page.Say(page.W("Wash")), Light: page.Say(page.W("lid off, white light")),
			Bath: page.Say(page.W("fill and dump, turn "), page.B(b.add(s+"wash.0", figure.KindCount, "5", "", figure.House)), page.W(" · "), page.B(b.add(s+"wash.1", figure.KindCount, "10", "", figure.House)), page.W(" · "), page.B(b.add(s+"wash.2", figure.KindCount, "20", "", figure.House)), page.W(" · "), page.B(b.get(s+"wash.2"))),
			Goes: page.Say(page.W("First two dumps to the fixer drum")), ForNote: page.Say(page.W("count, not clock"))},
		{ID: "wetting", At: page.Say(page.W("then")), Role: page.Wetting, Word: page.Say(page.W("Wetting bath")), Bath: fills("wetting", "15", "wetting agent"),
			Cue: page.Say(page.W("no foam; then hang "), page.F(b.add(s+"hang", figure.KindTime, "2", "h", figure.House))), For: page.Say(page.F(b.time(s+"time.wetting", "1:00")))},
	}
	temps := page.Temps{Caption: page.Say(page.W("Not "), page.F(temp), page.W("? Develop for")), Note: page.Say(page.S("NEVER"), page.W(" outside the window"))}
	for i, at := range []string{"17.5", "18.0", "18.5", "19.0", "19.5", "20.0", "20.5", "21.0", "21.5", "22.0", "22.5", "23.0", "23.5", "24.0", "24.5"} {
		a := []string{"", "13:00", "12:30", "12:00", "11:30", "11:00", "10:30", "10:00", "9:30", "9:15", "8:45", "8:30", "8:00", "7:45", ""}[i]
		c := []string{"", "10:45", "10:15", "9:45", "9:30", "9:00", "8:30", "8:15", "8:00", "7:30", "7:15", "7:00", "6:45", "6:15", ""}[i]
		cell := page.Temp{At: page.Say(page.F(b.add(s+"at."+at, figure.KindTemperature, strings.TrimSuffix(at, ".0"), "°C", figure.House))), Whole: strings.HasSuffix(at, ".0") || a == "", Ref: at == "20.0"}
		if a == "" {
			why := "too cold for this developer"
			if i > 0 {
				why = "too warm for this developer"
			}
			cell.Time = []*figure.Record{b.refuse(s+"time@"+at, why)}
		} else {
			cell.Time = both("time."+at, figure.KindTime, "s", a, c)
		}
		temps.Cells = append(temps.Cells, cell)
	}
	return page.Page{
		ID: "process/film-negative", Kind: "process", KindLine: "Process card, film sink", Title: "Film negative",
		Lead: page.Say(page.W("in "), page.N("film developer 1+1"), page.W(", one-shot")),
		Choices: []page.Choice{
			{Variant: "film-negative+film-400.double", Label: page.Say(page.N("film-400, double tank"))},
			{Variant: "film-negative+film-100.double", Label: page.Say(page.N("film-100, double tank"))},
		},
		Key: []page.Block{page.Amount{Value: page.Say(page.F(temp)), Note: page.Say(page.W("all baths within "), page.F(within))}},
		Before: []page.Block{
			page.Checklist{Label: page.Say(page.S("Before the light goes out")), Items: []page.Text{page.Say(page.W("tank, reels, column, lid, cap, scissors")), page.Say(page.W("bone dry"))}},
			page.Gear{Items: []page.GearItem{{Sign: "M009", Word: "gloves, lid on"}, {Sign: "M004", Word: "goggles, pouring"}}},
		},
		Do:     []page.Block{page.Clock{Rows: rows}},
		Tables: []page.Block{temps},
		Never:  []page.Block{page.List{Items: []page.Text{page.Say(page.W("below "), page.F(b.add(s+"shortest", figure.KindTime, "5:00", "s", figure.House)), page.W(" in the developer")), page.Say(page.W("fixer before stop"))}}},
		Why:    []page.Block{page.Para{Text: page.Say(page.W("Another time moves every later one. Starting points: test your own film."))}},
		Foot:   page.Foot{Version: "2", Date: "2026-02-01", Written: "KH2", Approved: "KH1", Review: "2027-02-01", Vouched: []page.Vouch{{Origin: "invented", Count: 48}}},
	}
}

func emergency() page.Page {
	return page.Page{
		ID: Emergency, Kind: "board", KindLine: "Wall board", Title: "Somebody is hurt",
		Do: []page.Block{page.List{Items: []page.Text{
			page.Say(page.S("Eyes: "), page.W("rinse, lids held open, and do not stop")),
			page.Say(page.S("Swallowed: "), page.W("do not make them sick")),
			page.Say(page.W("Call "), page.Inline{Kind: page.Ask, Text: "number"}),
		}}},
		Never: []page.Block{page.List{Items: []page.Text{page.Say(page.W("leave them alone"))}}},
		Foot:  page.Foot{Holes: []page.Hole{{What: "who to call", Until: "ask first", Key: "emergency in local.toml"}}},
	}
}

func notation(b *book) page.Page {
	return page.Page{
		ID: "board/notation", Kind: "board", KindLine: "Wall board", Title: "How dilutions are written",
		Tables: []page.Block{page.Table{Caption: page.Say(page.S("Written as parts")), Head: []page.Text{page.Say(page.W("written")), page.Say(page.W("in a litre, of the first")), page.Say(page.W("water"))},
			Rows: []page.Row{
				{Cells: []page.Cell{{Text: page.Say(page.N("1+1"))}, {Text: page.Say(page.F(b.amount("notation/1+1", "500", "ml")))}, {Text: page.Say(page.F(b.get("notation/1+1")))}}},
				{Cells: []page.Cell{{Text: page.Say(page.N("1+4"))}, {Text: page.Say(page.F(b.amount("notation/1+4", "200", "ml")))}, {Text: page.Say(page.F(b.amount("notation/1+4.water", "800", "ml")))}}},
				{Cells: []page.Cell{{Text: page.Say(page.N("1:4"))}, {No: true, Why: "read two ways"}, {No: true, Why: "read two ways"}}},
			}}},
		Never: []page.Block{page.List{Items: []page.Text{page.Say(page.W("write a colon"))}}},
	}
}

func bottle(b *book) page.Page {
	blank := page.Inline{Kind: page.Blank}
	return page.Page{
		ID: "label/film-developer.stock", Kind: "label", KindLine: "Bottle label", Title: "Film developer", Lead: page.Say(page.N("stock")), Role: page.Developer,
		Before: []page.Block{page.Gear{Items: []page.GearItem{{Sign: "M009", Word: "gloves"}, {Sign: "M004", Word: "goggles"}}}},
		Do: []page.Block{page.Label{Name: "Film developer", Strength: "stock", Role: page.Developer,
			Hazards: page.Hazards{Status: "every ingredient’s", Signal: "Danger", Pictograms: []string{"GHS05", "GHS07", "GHS08"},
				Statements: []page.Text{page.Say(page.W("May cause an allergic skin reaction.")), page.Say(page.W("Causes serious eye damage.")), page.Say(page.W("May damage fertility. May damage the unborn child."))},
				Note:       page.Say(page.W("Every hazard of the ingredients; strength not yet considered."))},
			Dates: []page.Text{page.Say(page.W("mixed on "), blank), page.Say(page.W("opened "), blank), page.Say(page.W("discard by "), blank), page.Say(page.W("by "), blank)},
			Lives: []page.Text{page.Say(page.W("full "), page.F(b.get("film-developer/keeps.full"))), page.Say(page.W("opened "), page.F(b.get("film-developer/keeps.part"))), page.Say(page.W("below half "), page.F(b.get("film-developer/keeps.low")))},
			Foot:  page.Say(page.W("workplace label, not for sale")),
			For: []page.Container{
				{Name: "500ml", Holds: b.amount("bottle/holds@500ml", "500", "ml"), Ml: 500},
				{Name: "5000ml", Holds: b.amount("bottle/holds@5000ml", "5000", "ml"), Ml: 5000},
			}}},
		Never: []page.Block{page.List{Items: []page.Text{page.Say(page.W("let acid near it"))}}},
		Foot:  page.Foot{Version: "3", Date: "2026-01-10"},
	}
}

// stop is a first card of ten lines: hazards unknown and four holes.
func stop(b *book) page.Page {
	const s = "stop.stock/"
	return page.Page{
		ID: "mix/stop", Kind: "mixing", KindLine: "Mixing card", Title: "Citric stop", Lead: page.Say(page.N("stock")), Role: page.Stop,
		Key:    []page.Block{page.Amount{Label: page.Say(page.W("make")), Value: page.Say(page.F(b.amount(s+"made@1000ml", "1000", "ml")))}},
		Before: []page.Block{page.Gear{Job: "to weigh and mix", Items: []page.GearItem{{Sign: "M009", Word: "gloves"}, {Sign: "M004", Word: "goggles"}, {Sign: "M026", Word: "apron"}, {Sign: "M016", Word: "mask"}}, Note: page.Say(page.S("Hazards not looked up"), page.W(": "), page.N("citric acid"), page.W(". Full precautions until somebody has; ask first."))}},
		Do: []page.Block{page.Steps{Rows: []page.Step{
			{ID: "acid", What: page.Say(page.W("Citric acid, anhydrous")), Amount: page.Say(page.F(b.add(s+"weigh.citric-acid@1000ml", figure.KindAmount, "15.0", "g", figure.Memory))), Device: page.Say(page.N("any scale reading 0.1 g")), Tick: true},
			{ID: "fill", What: page.Say(page.W("Cold water "), page.S("to the mark"), page.W(", stir")), Amount: page.Say(page.F(b.get(s + "made@1000ml"))), Tick: true, Mark: true},
		}}},
		Never: []page.Block{page.List{Items: []page.Text{page.Say(page.W("pour developer into it"))}}},
		Why:   []page.Block{page.Hazards{Status: "unknown", Note: page.Say(page.S("Hazards not looked up"), page.W(": "), page.N("citric acid"), page.W(". Ask first."))}},
		Foot: page.Foot{Holes: []page.Hole{
			{What: "how long it keeps", Until: "no discard date: ask first", Key: "keeps in solutions/stop.toml"},
			{What: "its density", Until: "water’s is taken, and the stricter side counts", Key: "density in solutions/stop.toml"},
			{What: "where it goes when spent", Until: "to a drum: ask first", Key: "waste in solutions/stop.toml"},
			{What: "its hazards", Until: "full precautions", Key: "hazards in chemicals/citric-acid.toml"},
		}, Vouched: []page.Vouch{{Origin: "memory", Count: 1}}},
	}
}

func standard(t testing.TB) *theme.Theme {
	t.Helper()
	th, err := theme.Open(themes.FS)
	if err != nil {
		t.Fatal(err)
	}
	return th
}

// siteFor is what all pages of a binder share.
func siteFor(t testing.TB, b procedures.Binder) *site {
	t.Helper()
	s, err := newSite(b, standard(t), Options{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Site renders a whole binder into memory, in the order of the paths.
func Site(b procedures.Binder, t *theme.Theme, o Options) ([]File, error) {
	plan, err := Lay(b, t, o)
	if err != nil {
		return nil, err
	}
	var mutex sync.Mutex
	var files []File
	err = plan.Render(func(path string, write func(io.Writer) error) error {
		var b bytes.Buffer
		err := write(&b)
		mutex.Lock()
		defer mutex.Unlock()
		files = append(files, File{path, b.Bytes()})
		return err
	})
	slices.SortFunc(files, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	return files, err
}

func render(t testing.TB, o Options) map[string][]byte {
	t.Helper()
	files, err := Site(fixture(), standard(t), o)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, f := range files {
		out[f.Path] = f.Bytes
	}
	return out
}
