package files

import (
	"errors"
	"fmt"
	"path/filepath"

	"stageloom/model/house"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
)

// noteHouse marks what the house does not let the plan have, and asks about a plan that lies in another file too.
func (f *Dialogs) noteHouse() {
	if err := f.Desk().Note(); err != nil && house.Lent(f.Desk().Plan()) {
		f.WarnAlso(words.Sentence(err))
	}
	if f.Library == nil || f.Desk().ReadOnly() != "" || f.Desk().Path() == "" {
		return
	}
	if copied, err := f.Library().Copied(f.show()); err == nil && copied != nil { // what cannot be read is told by the save
		f.askCopied(copied, dialogs.Choice{Label: "Ask later"}, func() {})
	}
}

// show is the plan as the house knows it; the day is that of a save alone.
func (f *Dialogs) show() house.Show { return house.ShowOf(f.Desk().Plan(), f.Desk().Path(), "") }

// askCopied asks whether a plan that lies in two files is a plan of its own, and goes on with either answer.
func (f *Dialogs) askCopied(copied *house.Copied, later dialogs.Choice, then func()) {
	other := filepath.Base(copied.Show.File) + " in " + filepath.Dir(copied.Show.File)
	dialogs.Ask(f, "A plan of its own?", fmt.Sprintf("%q lies in two files: in this one and in %s. What it has of the house's stock is out with that one. "+
		"A plan of its own asks the house for its cables anew when it is saved: what is free on its days it gets, the rest is marked.",
		f.Desk().Plan().Settings.Name, other), []dialogs.Choice{
		{Label: "A plan of its own", Important: true, Do: func() {
			f.Desk().OwnIdentity()
			_ = f.Desk().Note() // what the house cannot say now, the save tells
			f.Say("This is a plan of its own now. The house lends it what is free once it is saved.")
			then()
		}},
		{Label: "The same plan, which moved", Do: func() {
			if err := f.Library().Follow(f.show()); err != nil {
				f.Warn(words.Sentence(err))
				return
			}
			f.Say("The house's stock knows the plan by this file now.")
			then()
		}},
		later,
	})
}

// copied asks, where a save was refused because the plan lies in another file too, and saves again after the answer.
func (f *Dialogs) copied(err error, again func()) (asked bool) {
	var copied *house.Copied
	if f.Library == nil || !errors.As(err, &copied) {
		return false
	}
	f.askCopied(copied, dialogs.Choice{Label: "Cancel"}, again)
	return true
}
