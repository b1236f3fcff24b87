package theme

import (
	"bytes"
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"github.com/BurntSushi/toml"
)

// spacingFile holds the numbers by which cards are set.
const spacingFile = "spacing.toml"

// Spacing are the numbers by which cards are set on paper: the stylesheet and the estimate of
// how high a card will be both read them here. spacing.toml says what each is for.
type Spacing struct {
	// Line is how high a line is beside its type.
	Line struct {
		Clock   float64 `toml:"clock"`
		Title   float64 `toml:"title"`
		Case    float64 `toml:"case"`
		Large   float64 `toml:"large"`
		Narrow  float64 `toml:"narrow"`
		Beside  float64 `toml:"beside"`
		Label   float64 `toml:"label"`
		Cue     float64 `toml:"cue"`
		Caption float64 `toml:"caption"`
		Reason  float64 `toml:"reason"`
		Small   float64 `toml:"small"`
		Text    float64 `toml:"text"`
	} `toml:"line"`
	// Times is how large type, a plate or a sign is beside another size.
	Times struct {
		Follow         float64 `toml:"follow"`
		Tight          float64 `toml:"tight"`
		Lead           float64 `toml:"lead"`
		LeadClose      float64 `toml:"lead_close"`
		Choice         float64 `toml:"choice"`
		Further        float64 `toml:"further"`
		FurtherProduct float64 `toml:"further_product"`
		UnitStep       float64 `toml:"unit_step"`
		UnitCell       float64 `toml:"unit_cell"`
		Voice          float64 `toml:"voice"`
		ListLarge      float64 `toml:"list_large"`
		Gear           float64 `toml:"gear"`
		Drain          float64 `toml:"drain"`
		Long           float64 `toml:"long"`
		TempsHead      float64 `toml:"temps_head"`
		Temps          float64 `toml:"temps"`
		CaseLeast      float64 `toml:"case_least"`
		CaseNumber     float64 `toml:"case_number"`
		CaseAct        float64 `toml:"case_act"`
		ActBound       float64 `toml:"act_bound"`
		Numbered       float64 `toml:"numbered"`
		NumberedHigh   float64 `toml:"numbered_high"`
		NumberedSpill  float64 `toml:"numbered_spill"`
		Disc           float64 `toml:"disc"`
		DiscPlate      float64 `toml:"disc_plate"`
		DiscColumn     float64 `toml:"disc_column"`
		DiscColumnA6   float64 `toml:"disc_column_a6"`
		WayPlate       float64 `toml:"way_plate"`
		WhereTo        float64 `toml:"where_to"`
	} `toml:"times"`
	// Share is what of the width something takes.
	Share struct {
		Quantity   float64 `toml:"quantity"`
		Checklist  float64 `toml:"checklist"`
		Case       float64 `toml:"case"`
		CaseBound  float64 `toml:"case_bound"`
		ClashThese float64 `toml:"clash_these"`
		ClashGives float64 `toml:"clash_gives"`
	} `toml:"share"`
	// Em are lengths in letters of their own words; Unit is the room of a unit by its letters.
	Em struct {
		StepNumber float64   `toml:"step_number"`
		Column     float64   `toml:"column"`
		Boxed      float64   `toml:"boxed"`
		Refused    float64   `toml:"refused"`
		Unit       []float64 `toml:"unit"`
	} `toml:"em"`
	// Apart is what stands between two things, in mm.
	Apart struct {
		Blocks          float64 `toml:"blocks"`
		BlocksBound     float64 `toml:"blocks_bound"`
		Work            float64 `toml:"work"`
		WorkAbove       float64 `toml:"work_above"`
		WorkBelow       float64 `toml:"work_below"`
		Cards           float64 `toml:"cards"`
		Before          float64 `toml:"before"`
		BeforeRows      float64 `toml:"before_rows"`
		Head            float64 `toml:"head"`
		HeadSmall       float64 `toml:"head_small"`
		KindClose       float64 `toml:"kind_close"`
		Signs           float64 `toml:"signs"`
		Choice          float64 `toml:"choice"`
		Lead            float64 `toml:"lead"`
		NameBound       float64 `toml:"name_bound"`
		Amount          float64 `toml:"amount"`
		Keys            float64 `toml:"keys"`
		Never           float64 `toml:"never"`
		GoesOn          float64 `toml:"goes_on"`
		Banner          float64 `toml:"banner"`
		BannerSmall     float64 `toml:"banner_small"`
		Caption         float64 `toml:"caption"`
		CaptionBound    float64 `toml:"caption_bound"`
		CellAbove       float64 `toml:"cell_above"`
		CellBelow       float64 `toml:"cell_below"`
		CellAboveBound  float64 `toml:"cell_above_bound"`
		CellBelowBound  float64 `toml:"cell_below_bound"`
		TableNote       float64 `toml:"table_note"`
		Refused         float64 `toml:"refused"`
		Items           float64 `toml:"items"`
		ListLabel       float64 `toml:"list_label"`
		Lesser          float64 `toml:"lesser"`
		Caution         float64 `toml:"caution"`
		CautionBar      float64 `toml:"caution_bar"`
		StepCaution     float64 `toml:"step_caution"`
		StepReason      float64 `toml:"step_reason"`
		Gear            float64 `toml:"gear"`
		GearSign        float64 `toml:"gear_sign"`
		Boxed           float64 `toml:"boxed"`
		Ticks           float64 `toml:"ticks"`
		TicksFive       float64 `toml:"ticks_five"`
		TicksAbove      float64 `toml:"ticks_above"`
		Drain           float64 `toml:"drain"`
		DrainBare       float64 `toml:"drain_bare"`
		Cue             float64 `toml:"cue"`
		BathNote        float64 `toml:"bath_note"`
		Light           float64 `toml:"light"`
		Ruler           float64 `toml:"ruler"`
		CaseLeast       float64 `toml:"case_least"`
		CaseRight       float64 `toml:"case_right"`
		Numbered        float64 `toml:"numbered"`
		Disc            float64 `toml:"disc"`
		DiscWord        float64 `toml:"disc_word"`
		DiscSort        float64 `toml:"disc_sort"`
		DiscAsk         float64 `toml:"disc_ask"`
		DiscLine        float64 `toml:"disc_line"`
		DiscRight       float64 `toml:"disc_right"`
		Names           float64 `toml:"names"`
		NamesRows       float64 `toml:"names_rows"`
		NamePlate       float64 `toml:"name_plate"`
		Way             float64 `toml:"way"`
		WayUnder        float64 `toml:"way_under"`
		ClashAbove      float64 `toml:"clash_above"`
		ClashBelow      float64 `toml:"clash_below"`
		ClashRight      float64 `toml:"clash_right"`
		Column          float64 `toml:"column"`
		ColumnRows      float64 `toml:"column_rows"`
		ColumnsAbove    float64 `toml:"columns_above"`
		TempsAbove      float64 `toml:"temps_above"`
		Temps           float64 `toml:"temps"`
		TempsBelow      float64 `toml:"temps_below"`
		PictogramsBound float64 `toml:"pictograms_bound"`
		Shown           float64 `toml:"shown"`
		Foot            float64 `toml:"foot"`
		FootLarge       float64 `toml:"foot_large"`
		Contents        float64 `toml:"contents"`
		ContentsChapter float64 `toml:"contents_chapter"`
	} `toml:"apart"`
	// Side is how large things are, in mm.
	Side struct {
		Quantity       float64 `toml:"quantity"`
		Device         float64 `toml:"device"`
		Tick           float64 `toml:"tick"`
		Arrow          float64 `toml:"arrow"`
		ClashBar       float64 `toml:"clash_bar"`
		ColumnSign     float64 `toml:"column_sign"`
		PictogramBound float64 `toml:"pictogram_bound"`
		Shown          float64 `toml:"shown"`
		ShownBound     float64 `toml:"shown_bound"`
		NumberedBound  float64 `toml:"numbered_bound"`
		Contents       float64 `toml:"contents"`
	} `toml:"side"`
	// Rule is how strong rules are, in mm.
	Rule struct {
		Hair float64 `toml:"hair"`
		Fine float64 `toml:"fine"`
		Firm float64 `toml:"firm"`
		Bold float64 `toml:"bold"`
	} `toml:"rule"`
	// Room is the room of a face that says nothing else.
	Room Room `toml:"room"`
}

// readSpacing reads the numbers. Every one of them is needed, none is below nothing, and there
// are no others.
func readSpacing(b []byte) (*Spacing, []error) {
	s := &Spacing{}
	md, err := toml.NewDecoder(bytes.NewReader(b)).Decode(s)
	if err != nil {
		return s, []error{fmt.Errorf("%s: %w", spacingFile, err)}
	}
	var faults []error
	for _, k := range md.Undecoded() {
		faults = append(faults, fmt.Errorf("%s: %s is not a number by which cards are set", spacingFile, k))
	}
	for name, n := range s.numbers() {
		if !md.IsDefined(strings.Split(name, ".")...) {
			faults = append(faults, fmt.Errorf("%s: the number %s is not there", spacingFile, name))
		}
		if len(n) == 0 || slices.ContainsFunc(n, func(x float64) bool { return !(x >= 0 && x <= most) }) {
			faults = append(faults, fmt.Errorf("%s: %s is no length from 0 to %s", spacingFile, name, mm(most)))
		}
	}
	slices.SortFunc(faults, func(a, b error) int { return strings.Compare(a.Error(), b.Error()) })
	return s, faults
}

// most is what no length of a card comes near, in mm.
const most = 1000.0

// numbers are all numbers by table and name, such as line.text.
func (s *Spacing) numbers() map[string][]float64 {
	out := map[string][]float64{}
	tables := reflect.ValueOf(s).Elem()
	for i := range tables.NumField() {
		table := tables.Field(i)
		for k := range table.NumField() {
			name := tables.Type().Field(i).Tag.Get("toml") + "." + table.Type().Field(k).Tag.Get("toml")
			switch n := table.Field(k).Interface().(type) {
			case float64:
				out[name] = []float64{n}
			case []float64:
				out[name] = n
			}
		}
	}
	return out
}

// Rules are the numbers as properties of the stylesheet's root.
func (s *Spacing) Rules() string {
	units := map[string]string{"line": "", "times": "", "share": "", "em": "em", "apart": "mm", "side": "mm"}
	var b strings.Builder
	all := s.numbers()
	for _, name := range slices.Sorted(maps.Keys(all)) {
		table, own, _ := strings.Cut(name, ".")
		unit, ok := units[table]
		if !ok {
			continue
		}
		property := strings.ReplaceAll(table+"-"+own, "_", "-")
		for i, n := range all[name] {
			if len(all[name]) > 1 {
				fmt.Fprintf(&b, "--%s-%d:%s%s;", property, i, mm(n), unit)
				continue
			}
			fmt.Fprintf(&b, "--%s:%s%s;", property, mm(n), unit)
		}
	}
	r := s.Rule
	fmt.Fprintf(&b, "--hair:%smm;--fine:%smm;--firm:%smm;--bold:%smm", mm(r.Hair), mm(r.Fine), mm(r.Firm), mm(r.Bold))
	for _, l := range roomLengths {
		fmt.Fprintf(&b, ";--%s:%s%s", l.name, mm(*l.of(&s.Room)), l.unit)
	}
	return ":root{" + b.String() + "}\n"
}

// roomLengths are the lengths of a face's room as the stylesheet has them.
var roomLengths = []struct {
	name, unit string
	fit        bool // it shrinks with the type
	tight      bool // and it gives way before a card is cut
	of         func(*Room) *float64
}{
	{"pad", "mm", true, true, func(r *Room) *float64 { return &r.Pad }},
	{"row", "mm", true, true, func(r *Room) *float64 { return &r.Row }},
	{"sign", "mm", true, false, func(r *Room) *float64 { return &r.Sign }},
	{"head-plate", "mm", true, false, func(r *Room) *float64 { return &r.Head }},
	{"plate-wide", "mm", true, false, func(r *Room) *float64 { return &r.Plate }},
	{"when", "mm", true, false, func(r *Room) *float64 { return &r.When }},
	{"bath", "mm", true, true, func(r *Room) *float64 { return &r.Bath }},
	{"gap", "mm", false, false, func(r *Room) *float64 { return &r.Gap }},
	{"tick", "mm", false, false, func(r *Room) *float64 { return &r.Tick }},
	{"long", "mm", false, false, func(r *Room) *float64 { return &r.Long }},
	{"fill", "em", false, false, func(r *Room) *float64 { return &r.Fill }},
	{"sign-word", "em", false, false, func(r *Room) *float64 { return &r.Word }},
	{"below-banner", "mm", false, false, func(r *Room) *float64 { return &r.Banner }},
	{"below-kind", "mm", false, false, func(r *Room) *float64 { return &r.Kind }},
	{"cell", "mm", false, false, func(r *Room) *float64 { return &r.Cell }},
	{"table", "em", false, false, func(r *Room) *float64 { return &r.Table }},
}

// Spaced is the room of a face, with what it leaves out as the theme has it.
func (f Face) Spaced() Room {
	r := f.Room
	for _, l := range roomLengths {
		if own := l.of(&r); *own == 0 {
			*own = *l.of(&f.Spacing.Room)
		}
	}
	return r
}
