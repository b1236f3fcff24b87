package view

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"wetside/procedures/page"
)

// Controlled tells whether the page has a foot to show.
func (v *View) Controlled() bool {
	f := v.Page.Foot
	if v.Shared {
		return false
	}
	switch v.Page.Kind {
	case "front", "index", "working":
		return f.Version != "" || len(f.Holes) > 0
	}
	return true
}

// Fingerprint is the card's, as given or worked out.
func (v *View) Fingerprint() string {
	if v.Page.Foot.Fingerprint != "" {
		return v.Page.Foot.Fingerprint
	}
	if v.finger == "" {
		v.finger = page.Digest(v.Whole)[:8]
	}
	return v.finger
}

// HoleCount counts the holes of the page.
func (v *View) HoleCount() string { return strconv.Itoa(len(v.Page.Foot.Holes)) }

// FootHoles are the holes as the foot says them: on paper those that mean the same until
// somebody fills them in share a line. The binder names the key of each.
func (v *View) FootHoles() []page.Hole {
	if v.Site() || v.Bound {
		return v.Page.Foot.Holes
	}
	var out []page.Hole
	for _, h := range v.Page.Foot.Holes {
		if i := slices.IndexFunc(out, func(o page.Hole) bool { return o.Until == h.Until }); i >= 0 && h.Until != "" {
			out[i].What += ", " + h.What
			continue
		}
		out = append(out, h)
	}
	return out
}

// ShortControl is the foot of a label or a sign: whose it is, its edition, what nobody
// vouches for and what is missing.
func (v *View) ShortControl() string {
	f := v.Page.Foot
	var parts []string
	add := func(word, s string) {
		if s != "" {
			parts = append(parts, strings.TrimSpace(word+" "+s))
		}
	}
	add("", v.Lab)
	add("version", f.Version)
	if f.Approved == "" {
		add("", "approved ____ ask")
	}
	add("review overdue since", f.Overdue)
	for _, o := range f.Vouched {
		add(strconv.Itoa(o.Count), o.Origin)
	}
	if len(f.Holes) > 0 {
		add(v.HoleCount(), "not filled in: ask first")
	}
	add("", v.Fingerprint())
	return strings.Join(parts, " · ")
}

// Control is the foot as one line of text, with what nobody vouches for and what
// is missing if it is counted nowhere else.
func (v *View) Control(counts bool) string {
	f := v.Page.Foot
	var parts []string
	add := func(word, s string) {
		if s != "" {
			parts = append(parts, strings.TrimSpace(word+" "+s))
		}
	}
	add("version", f.Version)
	add("of", f.Date)
	add("approved", cmp.Or(f.Approved, "____ ask"))
	if f.Overdue == "" {
		add("review", f.Review)
	}
	add("review overdue since", f.Overdue)
	for _, o := range f.Vouched {
		if counts {
			add(strconv.Itoa(o.Count), o.Origin)
		}
	}
	if n := len(f.Holes); n > 0 && counts {
		add(v.HoleCount(), "not filled in: ask first")
	}
	add("", v.Fingerprint())
	return strings.Join(parts, " · ")
}
