package stock

import (
	"slices"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/text"
)

// receiving is what the house receives in one step: what it says of it, and how it is taken back.
type receiving struct {
	names, shows []string
	count        int
	back         []func() error
}

func (r *receiving) add(named string, some int, show string) {
	r.names = append(r.names, named)
	r.count += some
	if show != "" && !slices.Contains(r.shows, show) {
		r.shows = append(r.shows, show)
	}
}

// takeBack takes back what was done, the last first.
func (r *receiving) takeBack() error {
	for i := len(r.back) - 1; i >= 0; i-- {
		if err := r.back[i](); err != nil {
			return err
		}
	}
	return nil
}

// doReceive receives what is out, and has again what was set aside.
func (d *houseDialog) doReceive(came []house.Received, found []plan.ReelID) error {
	var r receiving
	library, day := d.Library(), text.Today()
	if len(came) > 0 {
		receipt, err := library.BookIn(day, came...)
		if err != nil {
			return err
		}
		for _, one := range receipt.Came {
			r.add(text.SomeWords(d.stock.Plan, one.Reel, one.Quantity, d.Units()), one.Quantity, one.Show.Name)
		}
		r.back = append(r.back, func() error { return library.Restore(receipt) })
	}
	var changes []house.StateChange
	for _, id := range found {
		row, _ := d.stock.Plan.Reels.Get(plan.Key(id))
		changes = append(changes, house.StateChange{Reel: id, Quantity: row.Count()})
		r.add(text.SomeWords(d.stock.Plan, row, row.Count(), d.Units()), row.Count(), "")
	}
	var err error
	if len(changes) > 0 {
		var step house.Step
		step, err = library.Stepped(func(l house.Library) error { return l.SetState(day, changes...) })
		r.back = append(r.back, func() error { return library.TakeBack(step) })
	}
	if err == nil || len(came) > 0 {
		d.done(houseStep{told: r.told(len(changes) > 0 && err == nil), back: r.takeBack})
	}
	return err
}

func (r *receiving) told(again bool) string {
	told := "Received " + words.Listed(r.names) + sum(len(r.names), r.count)
	if len(r.shows) > 0 {
		told += ", from " + words.Listed(r.shows)
	}
	if again {
		told += ", there again"
	}
	return told + "."
}
