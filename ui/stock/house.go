package stock

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/house"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// houseDialog shows the house's stock beside what this show has of it; reels go over and back.
type houseDialog struct {
	*Dialogs
	stock house.Stock
	house []text.HouseRow
	show  []text.ShowRow
	// taken and returned are the rows under the hand, -1 where none is.
	taken, returned int

	search             *dialogs.Entry
	houseList, showing *dialogs.PickList
	many, back         *dialogs.Entry
	told               *widget.Label
	dialog             *dialog.CustomDialog
}

// ShowHouse shows the house's stock beside what this show has of it.
func (s *Dialogs) ShowHouse() {
	d := &houseDialog{Dialogs: s, taken: -1, returned: -1, told: widget.NewLabel("")}
	d.told.Wrapping = fyne.TextWrapWord
	d.search = dialogs.NewEntry(s)
	d.search.SetPlaceHolder("find a tag, a kind or a case")
	d.search.OnChanged = func(string) { d.fill() }
	d.houseList = dialogs.NewPickList(d, func() int { return len(d.house) }, func(i int) (string, string, bool) {
		return d.house[i].Words, d.house[i].Note, d.house[i].Left > 0
	}, func(i int) { d.taken = i; d.pickHouse() })
	d.showing = dialogs.NewPickList(d, func() int { return len(d.show) }, func(i int) (string, string, bool) {
		return d.show[i].Words, d.show[i].Note, true
	}, func(i int) { d.returned = i; d.pickShow() })
	d.many, d.back = dialogs.NewEntry(d), dialogs.NewEntry(d)
	d.many.OnSubmitted = func(string) { d.take() }
	d.back.OnSubmitted = func(string) { d.giveBack() }
	split := container.NewHSplit(d.inHouse(), d.withShow())
	split.Offset = 0.54
	d.dialog = dialog.NewCustomWithoutButtons("House stock", container.NewBorder(nil, d.told, nil, nil, split), s.Window())
	d.dialog.SetButtons([]fyne.CanvasObject{widget.NewButton("Close", d.dialog.Hide)})
	size := s.Window().Canvas().Size()
	d.dialog.Resize(fyne.NewSize(min(1100, size.Width-60), min(700, size.Height-60)))
	s.Keys().Escapable(d.dialog.Hide)
	d.reload()
	d.dialog.Show()
	dialogs.Focus(s, d.search)
}

// inHouse is the side of the house: its list, and what can be done to it.
func (d *houseDialog) inHouse() fyne.CanvasObject {
	take := widget.NewButton("Take for this show", d.take)
	take.Importance = widget.HighImportance
	return container.NewBorder(
		container.NewVBox(heading("In the house"), d.search),
		container.NewVBox(
			container.NewBorder(nil, nil, widget.NewLabel("How many"), take, d.many),
			container.NewGridWithColumns(4,
				widget.NewButton("Add…", func() { d.AddReels(d.OfHouse(d.reload)) }),
				widget.NewButton("Edit…", d.edit),
				widget.NewButton("Import…", func() { d.ImportStock(d.OfHouse(d.reload), "") }),
				widget.NewButton("Export…", func() { d.Export(d.OfHouse(d.reload)) }),
			),
		), nil, nil, d.houseList)
}

// withShow is the side of this show.
func (d *houseDialog) withShow() fyne.CanvasObject {
	give := widget.NewButton("Give back", d.giveBack)
	return container.NewBorder(heading("With "+d.Desk().Plan().Settings.Name),
		container.NewVBox(
			container.NewBorder(nil, nil, widget.NewLabel("How many"), give, d.back),
			widget.NewButton("Make this plan's own reels part of the house's stock", d.adopt),
		), nil, nil, d.showing)
}

func heading(text string) fyne.CanvasObject {
	return widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

// reload reads the house's stock anew, since other windows change it too.
func (d *houseDialog) reload() {
	s, err := d.Library().Stock()
	d.stock = s
	if err != nil {
		d.tell(words.Sentence(err), true)
	} else if s.Plan.Reels.Len() == 0 {
		d.tell("The house's stock is kept beside all plans. Add reels, import a list, or make this plan's own reels part of it.", false)
	}
	d.fill()
}

func (d *houseDialog) fill() {
	d.house = text.HouseRows(d.stock, d.Desk().Plan(), d.search.Text, d.Units())
	d.show = text.ShowRows(d.Desk().Plan(), d.stock, d.Units())
	d.taken, d.returned = -1, -1
	d.many.SetText("")
	d.back.SetText("")
	d.houseList.UnselectAll()
	d.showing.UnselectAll()
	d.houseList.Refresh()
	d.showing.Refresh()
	if d.search.Text != "" && len(d.house) > 0 {
		d.houseList.Select(0)
	}
}

func (d *houseDialog) tell(text string, bad bool) {
	d.told.Importance = widget.MediumImportance
	if bad {
		d.told.Importance = widget.DangerImportance
	}
	d.told.SetText(text)
}

func (d *houseDialog) pickHouse() { d.many.SetText(strconv.Itoa(d.house[d.taken].Left)) }
func (d *houseDialog) pickShow()  { d.back.SetText(strconv.Itoa(d.show[d.returned].Count)) }

// count reads how many are meant, or says what to write.
func (d *houseDialog) count(text string, most int) (int, bool) {
	count, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || count < 1 || count > most {
		d.tell(fmt.Sprintf("Write how many are meant, 1 to %d.", most), true)
		return 0, false
	}
	return count, true
}

// take takes what is under the hand for this show.
func (d *houseDialog) take() {
	if d.taken < 0 {
		d.tell("Choose what to take in the list of the house.", true)
		return
	}
	row := d.house[d.taken]
	if row.Left == 0 {
		d.tell("None of these is in the house now.", true)
		return
	}
	count, ok := d.count(d.many.Text, row.Left)
	if !ok {
		return
	}
	show := d.Desk().Plan().Settings.Name
	err := d.Desk().Do("Take "+row.Words+" from the house", func(e *plan.Edit) error {
		return d.stock.Take(e, house.Want{Reel: row.Reel.ID, Quantity: count})
	})
	d.reload()
	if err != nil {
		d.tell(words.Sentence(err), true)
		return
	}
	d.tell(fmt.Sprintf("%s has %d × %s.", show, count, row.Words), false)
}

// giveBack gives what is under the hand back to the house with what was found out about it.
func (d *houseDialog) giveBack() {
	if d.returned < 0 {
		d.tell("Choose what goes back in the list of this show.", true)
		return
	}
	row := d.show[d.returned]
	count, ok := d.count(d.back.Text, row.Count)
	if !ok {
		return
	}
	err := d.giveBackRow(row, count)
	d.reload()
	if err != nil {
		d.tell(words.Sentence(err), true)
		return
	}
	d.tell(fmt.Sprintf("The house has %d × %s back.", count, row.Words), false)
}

func (d *houseDialog) giveBackRow(row text.ShowRow, count int) error {
	return d.Desk().Do("Give "+row.Words+" back to the house", func(e *plan.Edit) error {
		return house.GiveBack(e, text.Today(), house.Return{Reel: row.Reel.ID, Quantity: count})
	})
}

// adopt makes the plan's own reels part of the house's stock, out with this show.
func (d *houseDialog) adopt() {
	ids := text.OwnReels(d.Desk().Plan())
	if len(ids) == 0 {
		d.tell("All reels of this plan are hired, somebody else's, or the house's already.", false)
		return
	}
	taken, err := d.Library().Adopt(d.Desk().Plan(), house.ShowOf(d.Desk().Plan(), d.Desk().Path(), text.Today()), ids...)
	if err == nil {
		err = d.Desk().Do("Make the reels the house's", func(e *plan.Edit) error { return house.Bind(e, taken) })
	}
	d.reload()
	if err != nil {
		d.tell(words.Sentence(err), true)
		return
	}
	d.tell(fmt.Sprintf("%d rows of this plan are part of the house's stock now, out with this show.", len(taken)), false)
}

func (d *houseDialog) edit() {
	if d.taken < 0 {
		d.tell("Choose what to edit in the list of the house.", true)
		return
	}
	d.EditReel(d.OfHouse(d.reload), d.house[d.taken].Reel.ID)
}
