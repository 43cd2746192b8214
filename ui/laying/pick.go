package laying

import (
	"context"
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/cabling"
	"stageloom/model/house"
	"stageloom/model/picking"
	"stageloom/model/plan"
	"stageloom/model/supply"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/panel"
	"stageloom/ui/text"
)

// pickDialog picks cables beside the window's work, shows what would change, and takes it as one step.
type pickDialog struct {
	*Dialogs
	dialog   *dialogs.Dialog
	plan     *plan.Plan // what is picked for
	selected []plan.LinkID
	request  cabling.Request
	stock    house.Stock // of the house, as it was when the dialog opened
	from     supply.Source
	picked   *supply.Picked
	picks    text.Picks

	head, proof, told *widget.Label
	sums, right       *fyne.Container
	links             *widget.List
	notes             *fyne.Container
	noted             *container.Scroll
	take, halt        *dialogs.Answer
	joins             *dialogs.Entry
	stop              context.CancelFunc
	run               int // counts picks, so that late ones are dropped
}

// pickWidth and pickHeight are sizes in units of the window beyond which the dialog doesn't grow.
const (
	pickWidth  = 1180
	pickHeight = 760
)

// PickCables opens the dialog: for the selected links, or for all where none is selected.
func (l *Dialogs) PickCables() {
	d := &pickDialog{Dialogs: l, plan: l.Desk().Plan(), selected: l.Desk().SelectedLinks()}
	if d.plan.Links.Len() == 0 {
		l.Say("There is no link to pick cables for: drag from a port of one device to another first.")
		return
	}
	d.lookInTheHouse()
	if d.plan.Reels.Len() == 0 && !d.hasHouse() {
		l.Say("The plan has no stock to pick from: add reels in the stock list on the left, take them from the house, or import a list.")
		return
	}
	d.request.Links = d.selected
	d.request.OnTheDay = d.plan.Revisions.Len() > 0
	d.build()
	d.dialog.Fit(dialogs.WideWidth, pickHeight)
	l.Keys().Escapable(d.close)
	d.dialog.Show()
	l.Keys().Submits(d.accept)
	d.pick()
}

func (d *pickDialog) build() {
	d.head = widget.NewLabelWithStyle("", fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	d.head.Wrapping = fyne.TextWrapWord
	d.proof, d.told = widget.NewLabel(""), widget.NewLabel("")
	d.proof.Wrapping, d.proof.Importance = fyne.TextWrapWord, widget.LowImportance
	d.told.Importance, d.told.Truncation = widget.LowImportance, fyne.TextTruncateEllipsis
	d.sums, d.notes = container.NewGridWithColumns(3), container.NewVBox()
	d.noted = container.NewVScroll(d.notes)
	d.links = widget.NewList(func() int { return len(d.picks.Links) }, newPickRow, d.fillRow)
	top := container.NewVBox(d.head, d.sums, widget.NewSeparator())
	d.right = container.NewBorder(top, container.NewVBox(d.noted, d.proof), nil, nil, d.links)

	options := d.options()
	wide := max(leastOptions, options.MinSize().Width+besideOptions)
	left := container.New(&dialogs.LeastWidth{Width: wide}, container.NewVScroll(options))
	d.dialog = dialogs.New(d, "Pick cables", container.NewBorder(nil, nil, left, nil, d.right))
	d.take = dialogs.NewAnswer(d, "Lay these", d.accept)
	d.take.Importance = widget.HighImportance
	d.halt = dialogs.NewAnswer(d, "Stop here", func() { d.stop() })
	d.dialog.SetButtons([]fyne.CanvasObject{d.told, d.halt, dialogs.NewAnswer(d, "Cancel", d.close), d.take})
}

// The options have at least this width, their kinds stand in one column where two would take more than the most, and beside
// them lies their scrollbar.
const leastOptions, mostOptions, besideOptions = 440, 560, 12

const (
	pickNew = "a new plan: fewest joins first"
	pickDay = "the day: fewest changes first"
)

// pick begins anew with what is chosen now.
func (d *pickDialog) pick() {
	if d.stop != nil {
		d.stop()
	}
	ctx, stop := context.WithCancel(context.Background())
	d.stop = stop
	d.run++
	run, request := d.run, d.request
	d.take.Disable()
	d.halt.Show()
	d.told.SetText("Picking…")
	progress := func(objective picking.Objective, sum, bound int) {
		fyne.Do(func() {
			if run == d.run && d.picked == nil {
				d.told.SetText(fmt.Sprintf("Picking: %s %d, not under %d", objective, sum, bound))
			}
		})
	}
	d.picked = nil
	stock, from := d.stock, d.from
	go func() {
		picked, err := supply.Pick(ctx, d.plan, stock, from, request, progress)
		stop()
		fyne.Do(func() {
			if run == d.run {
				d.show(picked, err)
			}
		})
	}()
}

// show tells what would be laid.
func (d *pickDialog) show(picked *supply.Picked, err error) {
	d.told.SetText("")
	d.halt.Hide()
	if err != nil {
		d.head.SetText(words.Sentence(err))
		return
	}
	d.picked, d.picks = picked, text.PicksFrom(picked, d.Units())
	d.head.SetText(d.picks.Head)
	d.proof.SetText(d.picks.Proof)
	d.sums.RemoveAll()
	for _, sum := range d.picks.Sums {
		name := widget.NewLabel(sum[0])
		name.Importance = widget.LowImportance
		d.sums.Add(panel.NewStacked(name, newChange(sum[1], sum[2])))
	}
	d.tellNotes()
	d.right.Refresh() // what stands above and below the list has another height
	d.take.SetText("Lay these")
	if d.picks.TakesApart {
		d.take.SetText("Take apart and lay")
	}
	if d.picks.Changed {
		d.take.Enable()
	}
}

// newChange shows a figure that changes, the old one muted and the new one bold, or one that stays, which is not bold.
func newChange(before, after string) fyne.CanvasObject {
	if before == after {
		return widget.NewLabel(before)
	}
	old := widget.NewLabel(before + " →")
	old.Importance = widget.LowImportance
	return container.NewHBox(old, widget.NewLabelWithStyle(after, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
}

// mostNotes is how many sentences of a sort are told; the rest is counted.
const mostNotes = 5

// notesHeight is how high the sentences may stand below the list; what is more scrolls.
const notesHeight = 240

func (d *pickDialog) tellNotes() {
	d.notes.RemoveAll()
	most := len(d.picks.OnSite) // of what lies each is named
	head := func(heading string) {
		label := widget.NewLabelWithStyle(heading, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
		label.Wrapping = fyne.TextWrapWord
		d.notes.Add(label)
	}
	tell := func(heading string, sentences []string) {
		if len(sentences) == 0 {
			return
		}
		head(heading)
		for i, one := range sentences {
			if i == most {
				one = fmt.Sprintf("and %d more", len(sentences)-most)
			}
			label := widget.NewLabel(one)
			label.Wrapping = fyne.TextWrapWord
			d.notes.Add(label)
			if i == most {
				break
			}
		}
	}
	tell("What lies on site would be changed", d.picks.OnSite)
	most = mostNotes
	tell("Looms and trunk pieces", d.picks.Whole)
	tell("To be taken from the house", d.picks.FromHouse)
	tell("Not served", d.picks.Unserved)
	for _, advice := range d.picks.Advice {
		if len(advice.Rows) == 0 {
			head(advice.Head)
		}
		tell(advice.Head, advice.Rows)
	}
	d.offerHired()
	tell("Held back", d.picks.Held)
	d.noted.SetMinSize(fyne.NewSize(0, min(notesHeight, d.notes.MinSize().Height)))
}

// offerHired offers to bring what is to be hired into the stock; what was added is picked from at once.
func (d *pickDialog) offerHired() {
	hires := d.picked.Proposal.HireIn
	if d.AddHired == nil || len(hires) == 0 {
		return
	}
	d.notes.Add(container.NewHBox(dialogs.NewAnswer(d, "Add what is to be hired…", func() {
		d.close()
		d.AddHired(hires, d.PickCables)
	})))
}

// newPickRow is a line of the list: name, cables now, cables proposed, margin.
func newPickRow() fyne.CanvasObject {
	labels := make([]fyne.CanvasObject, 4)
	for i := range labels {
		label := widget.NewLabel("")
		label.Truncation = fyne.TextTruncateEllipsis
		labels[i] = label
	}
	labels[0].(*widget.Label).TextStyle.Bold = true
	labels[3].(*widget.Label).Alignment = fyne.TextAlignTrailing
	return container.New(pickColumns{}, labels...)
}

func (d *pickDialog) fillRow(i int, object fyne.CanvasObject) {
	if i >= len(d.picks.Links) {
		return
	}
	link := d.picks.Links[i]
	proposed := "→ " + link.Proposed
	if link.Remark != "" {
		proposed += "  (" + link.Remark + ")"
	}
	changed := link.Now != link.Proposed
	for n, text := range []string{link.Name, link.Now, proposed, link.Margin} {
		label := object.(*fyne.Container).Objects[n].(*widget.Label)
		label.Importance = widget.MediumImportance
		if n == 1 && changed {
			label.Importance = widget.LowImportance
		}
		label.TextStyle.Bold = n == 0 || n == 2 && changed
		label.SetText(text)
	}
}

// pickColumns lays out a line of the list.
type pickColumns struct{}

var pickShares = []float32{0.1, 0.32, 0.38, 0.2}

// MinSize implements fyne.Layout.
func (pickColumns) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(400, objects[0].MinSize().Height)
}

// Layout implements fyne.Layout.
func (pickColumns) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	x := float32(0)
	for i, object := range objects {
		width := size.Width * pickShares[i]
		object.Resize(fyne.NewSize(width, size.Height))
		object.Move(fyne.NewPos(x, 0))
		x += width
	}
}

func (d *pickDialog) close() {
	if d.stop != nil {
		d.stop()
	}
	d.run++
	d.Keys().Submits(nil)
	d.dialog.Hide()
}

// accept takes of the house what was picked and lays what is proposed, as one step.
func (d *pickDialog) accept() {
	if d.picked == nil || !d.picks.Changed {
		return
	}
	picked, said := d.picked, d.picks.Head+" Done; Ctrl Z takes all of it back."
	stock, err := d.stock, error(nil)
	if len(d.picks.FromHouse) > 0 {
		stock, err = d.Library().Stock() // another window may have taken of it meanwhile
		said += " The house learns what is taken when the plan is saved."
	}
	d.close()
	name := d.picks.Step()
	if err == nil {
		err = d.Desk().DoAnyway(name, picked.Edit(stock)) // what it touches on site was named
	}
	if err != nil {
		d.Refused(err)
	}
	if d.Desk().NextUndo() == name {
		d.Say(said)
	}
}
