package hazard

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// byLab is the voice of the lab itself.
const byLab = "override"

// override puts the lab's own judgement of a bath in the place of the others, where it may
// stand there: a harder one always, a milder one by data that a second person has seen.
// What to wear goes by all voices still.
func (k *Known) override(l *lab.Lab, b lab.Bath, day unit.Date) {
	d := b.Decl()
	if d == nil || d.Override == nil || l.Scheme() == nil {
		return
	}
	o := d.Override
	at := b.Def().At("strength." + b.Strength + ".override")
	refuse := func(what, hint string) {
		k.Problems = append(k.Problems, lab.Problem{At: at, OnKey: true, Code: "override", Warning: true, What: what,
			Hint: hint})
	}
	by, _ := l.OriginOf(b.Def(), at.Key)
	of := Known{}
	for _, word := range o.Classes {
		of.class(l, word, b.Name(), by)
	}
	milder := k.milderThan(l.Scheme(), of.Classes)
	switch {
	case !day.IsZero() && o.Until.Before(day):
		refuse(fmt.Sprintf("the override of the hazards of %s held until %s: it is not taken", b.Name(), o.Until),
			"look at it again, and write the next day until which it holds")
		return
	case milder != "" && k.Status == Supplied:
		refuse(fmt.Sprintf("the override of %s would make it milder than its supplier says (%s): it is not taken",
			b.Name(),
			milder), "what is sold as it stands has the classes of its supplier; ask the supplier for a new sheet")
		return
	case milder != "" && (o.Source == "" || o.Second == "" || o.Second == o.By):
		refuse(fmt.Sprintf("the override of %s would make it milder (%s), by no data that a second person has seen: it is not taken", b.Name(), milder), `write source = "…", a test or a sheet of the same mixture, and second = "KH2", somebody else`)
		return
	}
	k.More = slices.Concat(k.More, k.Classes)
	if k.Status == Carried || k.Status == Unknown {
		k.Layers = append(k.Layers, Layer{Who: byNobody, Classes: k.Classes})
	}
	k.Layers = append(k.Layers, Layer{Who: byLab, Classes: of.Classes})
	k.Status, k.Classes, k.Missing, k.Overrides = Overridden, of.Classes, nil, []*lab.Override{o}
	for i := range k.Classes {
		k.Classes[i].Because, k.Classes[i].Who = []string{o.Why}, []figure.Origin{by}
	}
}

// milderThan names a class that others have not got, nor a harder one; empty where there is
// none.
func (k Known) milderThan(s *lab.Scheme, others []Found) string {
	if k.Status == Unknown {
		return "nobody has looked up what is in it"
	}
	for _, f := range k.Classes {
		if !slices.ContainsFunc(others, func(o Found) bool { return asHard(s, o.Class.Word, f.Class.Word) }) {
			return f.Class.Word
		}
	}
	return ""
}

// asHard reports a class that is another, or stands above it in a list of the scheme.
func asHard(s *lab.Scheme, a, b string) bool {
	if a == b {
		return true
	}
	for _, ladder := range s.Hardest {
		i, j := slices.Index(ladder.Classes, a), slices.Index(ladder.Classes, b)
		if ladder.Organs {
			bareA, organsA, _ := strings.Cut(a, " (")
			bareB, organsB, _ := strings.Cut(b, " (")
			if organsA != "" && organsB != "" && organsA != organsB {
				continue // harm to one organ says nothing of another
			}
			i, j = slices.Index(ladder.Classes, bareA), slices.Index(ladder.Classes, bareB)
		}
		if i >= 0 && j >= 0 && i <= j {
			return true
		}
	}
	return false
}
