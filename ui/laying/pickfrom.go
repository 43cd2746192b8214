package laying

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"

	"stageloom/model/plan"
	"stageloom/model/supply"
	"stageloom/model/words"
)

// lookInTheHouse reads the house's stock; where it cannot be read that is told, and the show's is picked from.
func (d *pickDialog) lookInTheHouse() {
	d.from = supply.Show
	stock, err := d.Library().Stock()
	if err != nil {
		d.Warn(words.Sentence(err))
		return
	}
	d.stock = stock
	if from := supply.Source(d.PickFrom()); d.hasHouse() && slices.Contains(supply.Sources(), from) {
		d.from = from
	}
}

// hasHouse tells whether there is a house with anything in stock.
func (d *pickDialog) hasHouse() bool { return d.stock.Plan != nil && d.stock.Plan.Reels.Len() > 0 }

// sources are the stocks to pick from, as the dialog calls them.
var sources = map[supply.Source]string{supply.Show: "the show", supply.House: "the house", supply.Both: "both"}

// fromChoice lets the stock be chosen, where there is a house.
func (d *pickDialog) fromChoice(box *fyne.Container) {
	var options []string
	for _, from := range supply.Sources() {
		options = append(options, sources[from])
	}
	d.radio(box, options, sources[d.from], func(chosen string) {
		for from, said := range sources {
			if said == chosen {
				d.from = from
			}
		}
		d.KeepPickFrom(string(d.from))
	})
}

// kinds are those of the stock, and of what the house could lend, by name.
func (d *pickDialog) kinds() (kinds []plan.CableKind) {
	all := d.plan
	if gathered, err := supply.Gather(d.plan, d.stock, supply.Both, nil); err == nil {
		all = gathered.Plan
	}
	seen := map[plan.CableKindID]bool{}
	for reel := range all.Reels.All() {
		if kind, found := all.CableKinds.Get(plan.Key(reel.Kind)); found && !seen[kind.ID] {
			seen[kind.ID] = true
			kinds = append(kinds, kind)
		}
	}
	slices.SortFunc(kinds, func(a, b plan.CableKind) int { return strings.Compare(a.Name, b.Name) })
	return kinds
}
