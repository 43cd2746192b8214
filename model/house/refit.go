package house

import (
	"cmp"
	"slices"
)

// refit looks whether what a show has fits the days that it has now.
func (d *settling) refit(id string, was Show, known bool) {
	entries := d.entries(id, d.show.ID)
	own := d.taking(id, d.show.ID)
	if len(entries) == 1 && own >= 0 && (!known || was.span() == d.show.span()) {
		return
	}
	has := 0
	for _, at := range entries {
		has += d.Takings[at].Quantity
	}
	reel := d.Takings[entries[0]].Reel
	over := has - min(has, max(0, d.room(reel, d.show.span(), d.ofTaking(id))))
	var stays []Taking
	for _, at := range entries {
		t := &d.Takings[at]
		days, stay := was.span(), *t
		if t.kept() {
			days = span{t.From, t.Until}
		}
		stay.Quantity, stay.Came, stay.From, stay.Until = min(t.Quantity, over), 0, days.from, days.until
		over -= stay.Quantity
		t.Quantity -= stay.Quantity
		if stay.Quantity > 0 && days.from <= d.show.Saved && days != (span{}) {
			stays = append(stays, stay)
		}
	}
	d.gather(entries, stays)
}

// gather makes one taking of what fits, beside what stays for its former days.
func (d *settling) gather(entries []int, stays []Taking) {
	fits := d.Takings[entries[len(entries)-1]]
	fits.From, fits.Until, fits.Quantity, fits.Came = "", "", 0, 0
	for _, at := range entries {
		t := &d.Takings[at]
		fits.Quantity += t.Quantity
		fits.Came += t.Came
		fits.Received = max(fits.Received, t.Received)
		fits.CameAs = cmp.Or(fits.CameAs, t.CameAs)
		fits.Edited = fits.Edited || t.Edited
		t.Quantity, t.Came = 0, 0
	}
	d.Takings[entries[len(entries)-1]] = fits
	for _, stay := range stays {
		at := slices.IndexFunc(d.Takings, func(t Taking) bool { return t.key() == stay.key() })
		if at < 0 {
			d.Takings = append(d.Takings, stay)
			continue
		}
		d.Takings[at].Quantity += stay.Quantity
	}
	d.sweep()
}

// ofTaking skips what is counted when a taking of the show is looked at: itself.
func (d *settling) ofTaking(id string) func(Taking) bool {
	return func(t Taking) bool { return t.ID == id && t.Plan == d.show.ID }
}
