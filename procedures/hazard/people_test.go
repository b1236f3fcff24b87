package hazard

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mixture"
	"wetside/procedures/rules"
	"wetside/procedures/unit"
)

// TestWhoLeavesWhat: each class, statement, pH and word of a caution by which somebody leaves a job to
// others, and beside each what does not ask for it. For pregnancy the classes are those of Directive
// 92/85/EEC, for young people those of Directive 94/33/EC, both as amended by Directive 2014/27/EU, from
// memory; for asthma, a rash and work alone they are common practice, no source.
func TestWhoLeavesWhat(t *testing.T) {
	l := bare(t)
	groups := map[string]*lab.Group{}
	for _, id := range []string{"sulfite", "thiosulfate", "acid", "metal-salt", "metabisulfite", "alkali"} {
		groups[id] = &lab.Group{Name: id, Names: []string{"some " + id}}
	}
	r, _ := rules.Of(&lab.Lab{Rules: []*lab.RuleBook{{Groups: groups}}})
	known := func(classes ...string) Known {
		k := Known{Status: Computed}
		for _, w := range classes {
			c, ok := l.Vocabulary().Class(w)
			require.True(t, ok, w)
			k.Classes = append(k.Classes, Found{Class: c, Statement: c.Statement, Because: []string{"it"},
				Who: []figure.Origin{figure.House}})
		}
		return k
	}
	acid := func(k Known, low float64, kinds ...string) Known {
		k.Acidity = Acidity{PH: mixture.PH{Known: true, Low: unit.Factor(low), Value: unit.Factor(low), High: unit.Factor(low)}}
		for _, kind := range kinds {
			k.Kinds = r.Together(k.Kinds, r.OfName("some "+kind))
		}
		return k
	}
	extra := func(code string) Known {
		k := known()
		k.Extra = []Found{{Code: code, Statement: "it says so", Because: []string{"it"}, Who: []figure.Origin{figure.House}}}
		return k
	}
	elsewhere := func(class string) Known {
		k := known(class)
		k.Classes, k.Elsewhere = nil, k.Classes
		return k
	}
	asked := func(job Job, text string) Known {
		k := known()
		k.Asked = []Asked{{Job: job, Text: text}}
		return k
	}
	vapour := acid(known(), 7, "acid")
	vapour.Parts = []Part{{Name: "acetic acid", Vapour: true}}
	untold := func(status Status, layers []Layer, kinds ...string) Known { // nobody knows its pH
		k := acid(Known{Status: status, Layers: layers}, 7, kinds...)
		k.Acidity = Acidity{}
		return k
	}
	rule, sheet := []Layer{{Who: bySupplier}, {Who: byRule}}, []Layer{{Who: bySupplier}}
	unlooked := Known{Status: Unknown, Missing: []string{"powder"}}
	for _, c := range []struct {
		who    Person
		job    Job
		of     Known
		leaves bool
	}{
		{Expecting, Work, known("Repr. 1B (FD)"), true}, {Expecting, Work, known("Lact."), true},
		{Expecting, Work, known("Muta. 2"), false}, {Expecting, Weigh, known("Muta. 2"), true},
		{Expecting, Dilute, known("Carc. 2"), true}, {Expecting, Away, known("Carc. 2"), false},
		{Expecting, Weigh, known("Skin Sens. 1"), false}, {Expecting, Spilled, elsewhere("Repr. 1B (FD)"), true},
		{Expecting, Weigh, asked(Weigh, "Nobody pregnant weighs it."), true}, {Expecting, Work, asked(Weigh, "Nobody pregnant weighs it."), false},
		{Asthmatic, Work, known("Resp. Sens. 1"), true}, {Asthmatic, Work, known("STOT SE 3 (respiratory)"), true},
		{Asthmatic, Work, known("STOT SE 3 (narcotic)"), false}, {Asthmatic, Work, known("Skin Corr. 1B"), false},
		{Asthmatic, Weigh, elsewhere("Resp. Sens. 1"), true}, {Asthmatic, Work, elsewhere("Resp. Sens. 1"), false},
		{Asthmatic, Away, extra("EUH071"), true}, {Asthmatic, Away, extra("EUH208"), false},
		{Asthmatic, Away, acid(known(), 5.9, "sulfite"), true}, {Asthmatic, Away, acid(known(), 6, "sulfite"), false},
		{Asthmatic, Away, acid(known(), 5, "thiosulfate"), true}, {Asthmatic, Away, acid(known(), 5, "acid"), false},
		{Asthmatic, Work, acid(known(), 5, "acid"), true}, {Asthmatic, Work, acid(known(), 6.5, "acid"), false},
		{Asthmatic, Work, acid(known(), 5, "metal-salt"), false}, {Asthmatic, Dilute, vapour, true},
		{Asthmatic, Away, untold(Computed, nil, "sulfite", "metabisulfite"), true}, {Asthmatic, Away, untold(Computed, nil, "thiosulfate", "acid"), true},
		{Asthmatic, Away, untold(Computed, nil, "sulfite"), false}, {Asthmatic, Away, untold(Computed, nil, "metabisulfite"), false},
		{Asthmatic, Away, untold(Computed, nil, "sulfite", "metabisulfite", "alkali"), false},
		{Asthmatic, Work, untold(Carried, nil, "thiosulfate"), true}, {Asthmatic, Work, untold(Carried, nil, "metal-salt"), false},
		{Asthmatic, Work, untold(Supplied, sheet, "sulfite"), true}, {Asthmatic, Work, untold(Supplied, rule, "sulfite"), false},
		{Allergic, Work, known("Skin Sens. 1A"), true}, {Allergic, Work, extra("EUH208"), true},
		{Allergic, Work, known("Resp. Sens. 1"), false}, {Allergic, Work, known("Skin Irrit. 2"), false},
		{Young, Away, known("Acute Tox. 3 (oral)"), true}, {Young, Away, known("Acute Tox. 4 (oral)"), false},
		{Young, Work, known("Skin Corr. 1C"), true}, {Young, Work, known("Skin Irrit. 2"), false},
		{Young, Work, known("Eye Dam. 1"), false}, {Young, Work, known("Skin Sens. 1"), true},
		{Young, Work, known("Carc. 2"), true}, {Young, Work, known("Repr. 1B (FD)"), true}, {Young, Work, known("STOT RE 2"), true},
		{Young, Work, acid(known(), 1.9), true}, {Young, Work, acid(known(), 4), false},
		{Alone, Weigh, known("Skin Corr. 1B"), true}, {Alone, Work, known("Skin Corr. 1B"), false},
		{Alone, Weigh, known("Skin Irrit. 2"), false}, {Alone, Weigh, known("Ox. Sol. 2"), true},
		{Expecting, Away, unlooked, true}, {Asthmatic, Work, unlooked, true}, {Allergic, Weigh, unlooked, true}, {Young, Dilute, unlooked, true},
	} {
		because := Leaves(c.who, c.job, c.of)
		require.Equal(t, c.leaves, because != "", "%s, %s: %+v (%s)", c.who, c.job, c.of.Classes, because)
	}
	for _, p := range People {
		require.True(t, p == Alone || spokenOf[p] != "", "%s: no caution of a lab can speak of it", p)
		require.Empty(t, Leaves(p, Work, Known{Status: None}), p)
	}
}
