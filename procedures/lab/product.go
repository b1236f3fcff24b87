package lab

import (
	"slices"

	"wetside/procedures/unit"
)

// Product is bought ready made.
type Product struct {
	Def
	Name      string               `toml:"name"`
	Role      Role                 `toml:"role"`
	State     State                `toml:"state"`
	Density   Said[unit.Density]   `toml:"density"`
	Contains  map[string]Share     `toml:"contains"`
	Hazards   *Hazards             `toml:"hazards"`
	Waste     string               `toml:"waste"`
	Water     WaterKind            `toml:"water"`
	Strengths map[string]*Strength `toml:"strength"`
	Keeps     Keeps                `toml:"keeps"`
	Never     []string             `toml:"never"`
	Note      string               `toml:"note"`
	// Pack is one pack as the shop sells it; what stands in the house is in store.toml.
	Pack   BoughtPack     `toml:"pack"`
	Sheet  *SupplierSheet `toml:"sheet"`
	Yields []Yield        `toml:"yields"`
	// Makes is what a pack is made up to before it is used or diluted.
	Makes *PackMakes `toml:"makes"`
	// Parts are the bottles or bags of a kit, by the ids that its steps add.
	Parts map[string]*KitPart `toml:"part"`
	Steps []Step              `toml:"step"`
}

// MadeStrength is the strength that the others are diluted from where they say
// nothing: what a pack makes, else what is bought.
func (p *Product) MadeStrength() string {
	if p.Makes != nil {
		return "stock"
	}
	return Supplied
}

// Comes reports whether it, or a part of it, is bought in one of some states.
func (p *Product) Comes(in ...State) bool {
	for _, part := range p.Parts {
		if part != nil && slices.Contains(in, part.State) {
			return true
		}
	}
	return slices.Contains(in, p.State)
}

// Dusty reports whether it, or a part of it, may fly up when it is handled as bought: a
// powder, and what nobody has said to be anything else.
func (p *Product) Dusty() bool {
	if len(p.Parts) == 0 {
		return dusty(p.State, p.Density)
	}
	for _, part := range p.Parts {
		if part != nil && part.Dusty() {
			return true
		}
	}
	return p.State == Powder
}

// Dusty reports the same of one part of a kit.
func (p *KitPart) Dusty() bool { return dusty(p.State, p.Density) }

func dusty(state State, density Said[unit.Density]) bool {
	return state == Powder || state == "" && !density.Given()
}

// BoughtPack is a pack as the shop sells it.
type BoughtPack struct {
	Holds Amount    `toml:"holds"`
	Count SaidCount `toml:"count"` // of tablets, sachets or bottles in it
	Price SaidPrice `toml:"price"`
}

// SupplierSheet is the safety sheet that came with a product.
type SupplierSheet struct {
	File    string   `toml:"file"`
	Edition SaidDate `toml:"edition"`
	// SpeaksOf is the state that the sheet is about.
	SpeaksOf State `toml:"speaks_of"`
}

// Yield is what a pack does by the maker's word.
type Yield struct {
	Strength string `toml:"strength"`
	Count    Many   `toml:"count"`
	Says     string `toml:"says"`
}

// ownOrigin is the yield's own word for who vouches for it.
func (y Yield) ownOrigin() string { return y.Says }

// PackMakes is what a pack is made up to.
type PackMakes struct {
	Stock Said[unit.Volume] `toml:"stock"`
	Start Start             `toml:"start"`
	// Divide says whether a part of a pack may be made up; left out, nobody has said.
	Divide Divide `toml:"divide"`
}

// KitPart is one bottle or bag of a kit.
type KitPart struct {
	Name     string             `toml:"name"`
	State    State              `toml:"state"`
	Pack     BoughtPack         `toml:"pack"`
	Density  Said[unit.Density] `toml:"density"`
	Contains map[string]Share   `toml:"contains"`
	Hazards  *Hazards           `toml:"hazards"`
	Sheet    *SupplierSheet     `toml:"sheet"`
	// Keeps is how long it keeps as bought, where that is not what the product says of all.
	Keeps Keeps `toml:"keeps"`
}

// PartKey is the key of a part of a kit.
func PartKey(id string) string { return "part." + keyName(id) }

// Told reports a product of which somebody has written something that is in it.
func (p *Product) Told() bool {
	for _, part := range p.Parts {
		if part != nil && len(part.Contains) > 0 {
			return true
		}
	}
	return len(p.Contains) > 0
}

// PartKeeps is how long a part of a kit keeps as bought.
func (p *Product) PartKeeps(id string) Keeps {
	if part := p.Parts[id]; part != nil && part.Keeps.Given() {
		return part.Keeps
	}
	k, _ := Bath{Product: p, Strength: Supplied}.Keeps()
	return k
}

// PartName is how a card speaks of a part of a kit.
func (p *Product) PartName(id string) string {
	if part := p.Parts[id]; part != nil && part.Name != "" {
		return part.Name
	}
	return "part " + Title(id)
}

// PartIDs lists the parts of a kit in the order of their names.
func (p *Product) PartIDs() []string { return sortedKeys(p.Parts) }
