package lab

// RuleBook is a file of rules about substances: the program's own, or the lab's.
type RuleBook struct {
	Def
	// Groups are sets of what reacts alike, by id. A group that an earlier book
	// has is added to.
	Groups map[string]*Group `toml:"group"`
	Apart  []Apart           `toml:"apart"`
	Spills []Spill           `toml:"spill"`
	// Scheme is how a law classifies mixtures; nil in a book that says nothing of it.
	Scheme *Scheme `toml:"scheme"`
	// Properties are what makes waste hazardous; nil in a book that says nothing of it.
	Properties *Scheme `toml:"properties"`
	Naming
	// Changes are changes of law after which older supplier's sheets are asked for anew.
	Changes []LawChange `toml:"change"`
}

// LawChange is a change of law, after which an older supplier's sheet may no longer hold.
type LawChange struct {
	On SaidDate `toml:"on"`
	// Of are ids of groups and chemicals; empty: it is for every mixture.
	Of []string `toml:"of"`
	// What has changed, and Source who says so.
	What   string `toml:"what"`
	Source string `toml:"source"`
}

// Group is a set of what reacts alike.
type Group struct {
	// Name is how a sentence speaks of it: "let acid meet it".
	Name string `toml:"name"`
	// Such is what the board of pairs adds to the name.
	Such string `toml:"such"`
	// About: it is in every house, whether the lab has written of it or not.
	About bool `toml:"about"`
	// Shelf heads the shelf edge on which its members stand together; empty: the
	// group says nothing of shelves.
	Shelf string `toml:"shelf"`
	// Members are ids of chemicals, products, solutions and other groups.
	Members []string `toml:"members"`
	// Names are substances without a file, as a supplier's sheet writes them.
	Names []string `toml:"names"`
	// All are ids: a bath that holds something of each belongs to the group.
	All []string `toml:"all"`
}

// Apart is a pair that never meets.
type Apart struct {
	// These and Those are ids of groups, chemicals, products and solutions. In a
	// waste route These may be left out: it is what the route takes.
	These []string `toml:"these"`
	Those []string `toml:"those"`
	// Never stands in place of Those, where the other side is no substance:
	// "let it stand or dry out".
	Never string `toml:"never"`
	// Gives is what happens, a word of a closed list, and Note what it says no more.
	Gives string `toml:"gives"`
	Note  string `toml:"note"`
	// Source says who says so; empty: our own rule.
	Source string `toml:"source"`
	// Extract: These are worked with under the extract.
	Extract bool `toml:"extract"`
	// Concentrate: it holds for both as they come, not for baths made with them.
	Concentrate bool `toml:"concentrate"`
}

// Spill is what is done with a spill of something.
type Spill struct {
	Of []string `toml:"of"`
	// Alone: it holds only where nothing in the bath gives off a gas.
	Alone bool   `toml:"alone"`
	Small string `toml:"small"`
	// Treated stands in place of Small under a permit to treat waste.
	Treated string   `toml:"treated"`
	Powder  string   `toml:"powder"`
	Never   []string `toml:"never"`
}
