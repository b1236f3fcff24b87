package procedures_test

import "testing"

// bare is a lab that uses many baths and has written no table for any of their strengths.
const bare = `
-- lab.toml --
[lab]
name = "Bare"
[water]
cold = "10 °C"
hardness = "200 mg/L"
[house]
order_lead = "2 weeks"
order_cover = "2 months"
[scale.one]
reads = "0.1 g"
up_to = "500 g"
[cylinder.one]
holds = "100 mL"
[tank.one]
fill = "500 mL"
takes = { 135 = 2 }
[tray.one]
fill = "1 L"
[bottle.one]
holds = "1 L"
[drum.silver]
holds = "20 L"
[use]
print = ["10 paper.20x25"]
film = ["8 film.135-36"]
[print]
papers = ["a4", "a5", "a6"]
-- local.toml --
[permit]
drain = "P-1"
wash = "P-1"
limits = [ { of = "silver", most = "1 mg/L" }, { of = "ph", least = "6", most = "9" } ]
-- materials/film.toml --
name = "film"
base = "film"
formats = ["135-36"]
silver = { coated = "6.0 g/m2", undeveloped = "65 %" }
-- materials/paper.toml --
name = "paper"
base = "fibre"
formats = ["20x25"]
silver = { coated = "1.4 g/m2", undeveloped = "90 %" }
-- processes/film.toml --
name = "film"
base = "film"
[[step]]
id = "develop"
bath = "developer.stock"
time = "8:00"
[[step]]
id = "stop"
bath = "stop.stock"
time = "0:30"
[[step]]
id = "bleach"
bath = "bleach.stock"
time = "2:00"
[[step]]
id = "fix"
bath = "fixer.stock"
time = "5:00"
[[step]]
id = "wash"
fills = [5, 10, 20]
collect_first = 2
[[step]]
id = "wet"
bath = "wet.supplied"
time = "1:00"
-- processes/print.toml --
name = "prints"
base = "fibre"
[[step]]
id = "develop"
bath = "bag.stock"
time = "2:00"
[[step]]
id = "stop"
bath = "stop.stock"
time = "0:30"
[[step]]
id = "fix"
bath = "fixer.stock"
place = 1
time = "1:15"
[[step]]
id = "again"
bath = "fixer.stock"
place = 2
time = "1:15"
[[step]]
id = "rinse"
flow = "2 L/min"
time = "2:00"
[[step]]
id = "clear"
bath = "clearing.stock"
time = "2:00"
[[step]]
id = "tone"
bath = "toner.stock"
time = "2:00"
[[step]]
id = "wet"
bath = "wet.supplied"
time = "1:00"
-- products/bag.toml --
name = "bag"
state = "powder"
role = "developer"
waste = "silver"
pack = { holds = "100 g", price = "9.00 EUR" }
[makes]
stock = "1 L"
-- products/wet.toml --
name = "wet"
state = "liquid"
role = "wetting"
waste = "silver"
pack = { holds = "1 L", price = "9.00 EUR" }
-- shelf/0001.toml --
of = "fixer.stock"
mixed = 2026-02-02
made = { amount = "1 L", by = "K", into = ["1 L"] }
log = [ { on = 2026-02-09, worked = ["3 film.135-36"] } ]
-- solutions/bleach.toml --
name = "bleach"
role = "bleach"
per = "1 L"
waste = "silver"
[[step]]
add = "citric-acid.anhydrous"
amount = "15 g"
-- solutions/clearing.toml --
name = "clearing"
role = "clearing"
per = "1 L"
waste = "silver"
[[step]]
add = "citric-acid.anhydrous"
amount = "15 g"
-- solutions/developer.toml --
name = "developer"
role = "developer"
per = "1 L"
waste = "silver"
[[step]]
add = "citric-acid.anhydrous"
amount = "15 g"
-- solutions/fixer.toml --
name = "fixer"
role = "fixer"
per = "1 L"
waste = "silver"
[[step]]
add = "citric-acid.anhydrous"
amount = "15 g"
-- solutions/stop.toml --
name = "stop"
role = "stop"
per = "1 L"
waste = "silver"
[[step]]
add = "citric-acid.anhydrous"
amount = "15 g"
-- solutions/toner.toml --
name = "toner"
role = "toner"
per = "1 L"
waste = "silver"
[[step]]
add = "citric-acid.anhydrous"
amount = "15 g"
-- waste/silver.toml --
name = "silver"
drum = "silver"
`

// TestStrengthsWithoutATable: a lab that says nothing of its strengths, though it counts a month, has a drum,
// a permit with limits, two fixing baths and a shelf, is worked out like any other.
func TestStrengthsWithoutATable(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range pagesOf(t, bare) {
		seen[p.ID] = true
	}
	for _, id := range []string{"process/print", "process/film", "mix/fixer", "product/bag", "dispose/silver"} {
		if !seen[id] {
			t.Errorf("there is no card %s", id)
		}
	}
}
