package build_test

import (
	"regexp"
	"strings"

	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/page"
)

func neverAgainstDo(c *court) {
	for _, p := range c.lab.Processes {
		said := ""
		page.Inlines(page.Page{Do: c.pages["process/"+p.ID].Do}, func(in page.Inline) { said += in.Text + "\n" })
		if !strings.Contains(said, "back to its bottle") {
			continue
		}
		for i, s := range p.Steps {
			b, bad := c.lab.Bath(s.Bath, p.At(lab.StepKey(i)))
			if len(bad) > 0 || b.Zero() || s.Waste != "" {
				continue
			}
			if d := b.Decl(); d == nil || d.Use != "re-use" && d.Use != "replenish" {
				continue
			}
			for _, id := range []string{"mix/" + b.Def().ID, "label/" + b.Ref(), "record/" + b.Def().ID} {
				forbidden := ""
				page.Inlines(page.Page{Never: c.pages[id].Never}, func(in page.Inline) { forbidden += in.Text + "\n" })
				if strings.Contains(forbidden, "pour a rest back") {
					c.failed("%s forbids what process/%s tells to do: pour it back", id, p.ID)
				}
			}
		}
	}
	for _, p := range c.r.Binder.Pages {
		if said, forbidden := p.Do, p.Never; p.Kind == "spill" {
			if strings.Contains(saidOn(page.Page{Never: forbidden}), "down the drain") && strings.Contains(saidOn(page.Page{Do: said}), "down the foul drain") {
				c.failed("%s both sends down the drain and forbids it", p.ID)
			}
		}
		never := map[string]bool{}
		page.Inlines(page.Page{Never: p.Never}, func(in page.Inline) {
			if len(strings.Fields(in.Text)) > 2 {
				never[in.Text] = true
			}
		})
		page.Inlines(page.Page{Do: p.Do, Before: p.Before}, func(in page.Inline) {
			if never[in.Text] && p.Kind != "spill" && p.Kind != "dispose" {
				c.failed("%s both says and forbids %q", p.ID, in.Text)
			}
		})
	}
}

var pieceWords = map[string]*regexp.Regexp{
	"goggles": regexp.MustCompile(`\bgoggles\b`), "face shield": regexp.MustCompile(`\bface shield\b`), "gloves": regexp.MustCompile(`\bgloves\b`),
	"tongs": regexp.MustCompile(`\btongs\b`), "dust mask": regexp.MustCompile(`\bdust mask\b`), "apron": regexp.MustCompile(`\bapron\b`), "extract": regexp.MustCompile(`\bextractor fan on\b`),
}

func gearIsUnion(c *court) {
	for _, b := range c.lab.Baths() {
		asked := map[string][]string{}
		ask := func(job string, texts ...string) { asked[job] = append(asked[job], texts...) }
		if s := b.Solution; s != nil && b.Strength == s.MadeStrength() {
			for _, step := range s.Steps {
				ask("weigh", step.Caution)
			}
		}
		for _, p := range c.lab.Processes {
			for i, step := range p.Steps {
				if in, bad := c.lab.Bath(step.Bath, p.At(lab.StepKey(i))); len(bad) == 0 && !in.Zero() && in.Ref() == b.Ref() {
					ask("work", step.Caution)
				}
			}
		}
		for job, texts := range asked {
			v, ok := c.verdicts[b.Ref()+"/protect@"+job]
			if !ok {
				c.failed("%s has no answer for what to wear at %s", b.Ref(), job)
				continue
			}
			for _, text := range texts {
				for piece, re := range pieceWords {
					if re.MatchString(strings.ToLower(text)) && !strings.Contains(v.Answer, piece) {
						c.failed("%s, %s: %q is asked for by %q, and the card says %q", b.Ref(), job, piece, text, v.Answer)
					}
				}
			}
		}
	}
	// The row on a card is what its verdict says.
	for _, p := range c.lab.Processes {
		gear := ""
		for _, block := range c.pages["process/"+p.ID].Before {
			if g, ok := block.(page.Gear); ok && g.Job == string(hazard.Work) {
				for _, item := range g.Items {
					gear += item.Word + ", "
				}
			}
		}
		for i, step := range p.Steps {
			b, bad := c.lab.Bath(step.Bath, p.At(lab.StepKey(i)))
			if len(bad) > 0 || b.Zero() {
				continue
			}
			for _, piece := range []string{"goggles", "gloves", "tongs", "apron", "extractor fan on", "face shield"} {
				if strings.Contains(c.verdicts[b.Ref()+"/protect@work"].Answer, piece) && !strings.Contains(gear, piece) {
					c.failed("process/%s: %s asks for %s, and the row has %q", p.ID, b.Ref(), piece, gear)
				}
			}
		}
	}
}

func routesForbid(c *court) {
	for _, b := range c.lab.Baths() {
		id := ""
		if b.Solution != nil {
			id = b.Solution.Waste
		} else {
			id = b.Product.Waste
		}
		w := c.lab.WasteRoute(id)
		drum := w != nil && w.Drum != ""
		drain := w != nil && w.Drain != "" && c.lab.Local.Permit.Drain != "" && c.lab.Local.Permit.Drain != "none"
		for _, card := range []string{"mix/" + b.Def().ID, "label/" + b.Ref()} {
			p, ok := c.pages[card]
			if !ok {
				continue
			}
			said := c.said(p)
			if strings.Contains(said, "not the drum for") {
				c.failed("%s names one forbidden drum as if the others were allowed", card)
			}
			own := strings.Contains(said, "not into any drum of this room")
			if !drum && !drain && !own {
				c.failed("%s does not say that %s goes not into any drum of this room", card, b.Ref())
			}
			if concentrate := b.Strength == lab.Supplied && len(b.Product.Strengths) > 0; drain && !drum && (concentrate || card == "mix/"+b.Def().ID && b.Product != nil) {
				// The permit speaks of what was worked in, not of the concentrate.
				if card == "mix/"+b.Def().ID && !(own && strings.Contains(said, "down the foul drain")) || !own {
					c.failed("%s does not tell apart where %s and its concentrate go", card, b.Ref())
				}
				continue
			}
			if (drum || drain) && own {
				c.failed("%s says that %s goes into no drum, and it has a route", card, b.Ref())
			}
		}
	}
}
