package stock

import (
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/house"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/split"
	"stageloom/ui/text"
)

// houseDialog shows the house's stock beside what this show has of it. What is typed or scanned into the field at the top is
// taken for the show, given back or received, whichever of these is on.
type houseDialog struct {
	*Dialogs
	side  house.Side
	stock house.Stock
	stamp string
	house []text.HouseLine
	show  []text.ShowLine
	steps []houseStep
	close chan struct{}

	scan                *dialogs.Entry
	sides               []*dialogs.Answer
	search, showSearch  *dialogs.SearchEntry
	place               *dialogs.Chooser
	houseList, showList *dialogs.ManyList
	many, back          *dialogs.Entry
	take, receive, give *dialogs.Answer
	out, until          *dialogs.Entry
	conflicts           *dialogs.Answer
	whole, told         *widget.Label
	// seen is the list whose selected line is told whole.
	seen *dialogs.ManyList
	// filling is on while the lists are filled anew, which selects nothing.
	filling bool
	dialog  *dialogs.Dialog
}

// ShowHouse shows the house's stock beside what this show has of it.
func (s *Dialogs) ShowHouse() {
	d := &houseDialog{Dialogs: s, told: widget.NewLabel(""), close: make(chan struct{})}
	d.parts()
	halves := split.Across(d.inHouse(), d.withShow())
	halves.Offset = 0.54
	content := container.NewBorder(d.head(), container.NewVBox(d.whole, dialogs.RoomFor(d.told, 2)), nil, nil, halves)
	d.dialog = dialogs.New(s, "House stock", content)
	d.dialog.SetButtons([]fyne.CanvasObject{d.onTop("Undo   F8", d.undo), d.button("Close", d.dialog.Hide)})
	d.dialog.SetOnClosed(func() { close(d.close) })
	d.dialog.Fit(dialogs.TwoListsWidth, 860)
	s.Keys().Escapable(d.dialog.Hide)
	s.Keys().Does(map[fyne.KeyName]func(){
		fyne.KeyF2: func() { d.turn(house.ToTake) },
		fyne.KeyF3: func() { d.turn(house.ToGiveBack) },
		fyne.KeyF4: func() { d.turn(house.ToReceive) },
		fyne.KeyF5: d.toScan, fyne.KeyF6: d.all, fyne.KeyF7: d.asBefore, fyne.KeyF8: d.undo,
		fyne.KeyF9: d.setState, fyne.KeyF10: d.edit, fyne.KeyF11: d.giveAs, fyne.KeyF12: d.importList,
	})
	d.reload()
	if d.stock.Plan.Reels.Len() == 0 && d.told.Text == "" {
		d.tell("The house's stock is kept beside all plans. Add reels, import a list, or make this plan's own reels part of it.", false)
	}
	d.turn(house.ToTake)
	d.dialog.Show()
	d.toScan()
	d.watch()
}

func (d *houseDialog) button(label string, do func()) *dialogs.Answer {
	return dialogs.NewAnswer(d, label, do)
}

// onTop is a button of this dialog itself: what it opens gives the keys back to the field of the scanner.
func (d *houseDialog) onTop(label string, do func()) *dialogs.Answer {
	return d.button(label, func() {
		d.toScan()
		do()
	})
}

// parts makes the fields and the lists.
func (d *houseDialog) parts() {
	d.scan = dialogs.NewEntry(d)
	d.scan.SetPlaceHolder("scan or type: a tag, R101–R120, Case 4, 3 x 10 m, all laid, all")
	d.scan.OnSubmitted, d.scan.Undo = d.scanned, d.undo
	d.houseList, d.showList = dialogs.NewManyList(d, "house"), dialogs.NewManyList(d, "show")
	d.houseList.Undo, d.showList.Undo = d.undo, d.undo
	d.houseList.Enter, d.showList.Enter = d.onHouse, d.giveSelected
	d.wholeLine()
	d.search, d.showSearch = d.searchOf(d.houseList, d.onHouse), d.searchOf(d.showList, d.giveSelected)
	d.place = dialogs.NewChooser(d, text.HousePlaces(), nil)
	d.place.SetSelectedIndex(0)
	d.place.OnChanged = func(string) { d.fill() }
	d.many, d.back = dialogs.NewEntry(d), dialogs.NewEntry(d)
	d.many.SetText("1")
	d.back.SetText("1")
	d.many.OnSubmitted = func(string) { d.onHouse() }
	d.back.OnSubmitted = func(string) { d.giveSelected() }
	d.out, d.until = d.dayEntry(d.Desk().Plan().Settings.OutOn, "now"), d.dayEntry(d.Desk().Plan().Settings.BackOn, "when given back")
}

func (d *houseDialog) searchOf(list *dialogs.ManyList, enter func()) *dialogs.SearchEntry {
	f := dialogs.NewSearchEntry(d, list.Step)
	f.SetPlaceHolder("find a tag, a kind, a case or a show")
	f.OnChanged = func(string) { d.fill() }
	f.OnSubmitted = func(string) {
		if len(list.Selected()) == 0 {
			list.SelectLine(0)
		}
		enter()
	}
	return f
}

// head has what is done with a scan, its field, and the days of the show.
func (d *houseDialog) head() fyne.CanvasObject {
	d.sides = []*dialogs.Answer{
		d.onTop("Take for this show   F2", func() { d.turn(house.ToTake) }),
		d.onTop("Give back   F3", func() { d.turn(house.ToGiveBack) }),
		d.onTop("Receive   F4", func() { d.turn(house.ToReceive) }),
	}
	sides := container.NewHBox(d.sides[0], d.sides[1], d.sides[2])
	d.conflicts = d.onTop("No conflicts", d.showConflicts)
	wide := &dialogs.LeastWidth{Width: 150}
	days := container.NewHBox(widget.NewLabel("Stock leaves on"), container.New(wide, d.out), widget.NewLabel("back on"), container.New(wide, d.until), d.conflicts)
	return container.NewVBox(container.NewBorder(nil, nil, sides, nil, d.scan), days)
}

// inHouse is the side of the house: its list, and what can be done to it.
func (d *houseDialog) inHouse() fyne.CanvasObject {
	d.take, d.receive = d.onTop("Take for this show", d.takeSelected), d.onTop("Receive", d.receiveSelected)
	return container.NewBorder(
		container.NewBorder(nil, nil, heading("The house"), d.place, d.search),
		container.NewVBox(
			container.NewBorder(nil, nil, widget.NewLabel("How many"), container.NewHBox(d.onTop("All   F6", d.all), d.receive, d.take), d.many),
			container.NewHBox(
				d.onTop("State…  F9", d.setState), d.onTop("Edit…  F10", d.edit), d.onTop("Cases…", d.cases), d.onTop("Tie…", d.tie),
				d.onTop("Add…", func() { d.AddReels(d.inSteps()) }), d.onTop("Import…  F12", d.importList),
				d.onTop("Export…", func() { d.Export(d.OfHouse(d.reload)) }),
			),
		), nil, nil, d.houseList.Content())
}

// withShow is the side of this show.
func (d *houseDialog) withShow() fyne.CanvasObject {
	d.give = d.onTop("Give back", d.giveSelected)
	return container.NewBorder(
		container.NewBorder(nil, nil, heading("With "+d.Desk().Plan().Settings.Name), nil, d.showSearch),
		container.NewVBox(
			container.NewBorder(nil, nil, widget.NewLabel("How many"), container.NewHBox(d.onTop("Give back as…  F11", d.giveAs), d.onTop("Give all back…", d.giveAll), d.give), d.back),
			container.NewHBox(
				d.onTop("Ask the house again", d.askAgain), d.onTop("As the house says", d.takeOver), d.onTop("Make own reels the house's", d.adopt),
			),
		), nil, nil, d.showList.Content())
}

// importList brings a list into the house's stock.
func (d *houseDialog) importList() { d.ImportStock(d.inSteps(), "") }

func heading(text string) fyne.CanvasObject {
	return widget.NewLabelWithStyle(text, fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
}

// turn says what is done with a scan.
func (d *houseDialog) turn(side house.Side) {
	d.side = side
	for i, button := range d.sides {
		important(button, house.Side(i) == side)
	}
	important(d.take, side == house.ToTake)
	important(d.give, side == house.ToGiveBack)
	important(d.receive, side == house.ToReceive)
	d.toScan()
}

func important(button *dialogs.Answer, is bool) {
	button.Importance = widget.MediumImportance
	if is {
		button.Importance = widget.HighImportance
	}
	button.Refresh()
}

func (d *houseDialog) toScan() { dialogs.Focus(d, d.scan) }

// onHouse does with what is selected of the house what is on: it is received, else taken.
func (d *houseDialog) onHouse() {
	if d.side == house.ToReceive {
		d.receiveSelected()
		return
	}
	d.takeSelected()
}

// watch looks each second whether another window changed the house's stock, until the dialog is closed.
func (d *houseDialog) watch() {
	begin := d.Ticks
	if begin == nil {
		begin = eachSecond
	}
	ticks, stop := begin()
	closed := d.close
	go func() {
		defer stop()
		for {
			select {
			case <-closed:
				return
			case <-ticks:
				fyne.Do(d.look)
			}
		}
	}()
}

func eachSecond() (ticks <-chan time.Time, stop func()) {
	ticker := time.NewTicker(time.Second)
	return ticker.C, ticker.Stop
}

// look reads the house's stock anew where its file is another.
func (d *houseDialog) look() {
	select {
	case <-d.close:
		return
	default:
	}
	if d.Library().Stamp() != d.stamp {
		d.reload()
		d.tell("The house's stock was changed elsewhere: the lists show it as it is now.", false)
	}
}

// reload reads the house's stock anew.
func (d *houseDialog) reload() {
	d.stamp = d.Library().Stamp()
	s, err := d.Library().Stock()
	d.stock = s
	if err != nil {
		d.tell(words.Sentence(err), true)
	} else if err := d.Desk().Note(); err != nil { // what the house lets the show have may be another now
		d.tell(words.Sentence(err), true)
	}
	d.fill()
}

// fill brings the lists up to the plan, the house and what is looked for.
func (d *houseDialog) fill() {
	if d.stock.Plan == nil {
		return // it is being made
	}
	d.filling = true
	defer func() { d.filling = false }()
	p, query := d.Desk().Plan(), text.HouseQuery{Words: d.search.Text, Place: d.place.Selected, Day: text.Today(), Units: d.Units()}
	d.house = text.HouseLines(&d.stock, p, query)
	lines := make([]dialogs.Line, len(d.house))
	for i, line := range d.house {
		lines[i] = dialogs.Line{ID: line.ID, Words: line.Words, Note: line.Note, Off: line.Left == 0 && !line.Out(), Marked: line.Place == house.Overdue}
	}
	d.houseList.Fill(lines, nothing(d.search.Text, d.place.Selected, "The house has no cables yet."))
	if count, _, said := house.Many(d.search.Text); said {
		d.many.SetText(strconv.Itoa(count))
	}
	query.Words = d.showSearch.Text
	d.show = text.ShowLines(p, &d.stock, query)
	lines = make([]dialogs.Line, len(d.show))
	for i, line := range d.show {
		lines[i] = dialogs.Line{ID: line.ID, Words: line.Words, Note: line.Note, Off: line.Reel.ID == "", Marked: line.Lacks || len(line.Found) > 0}
	}
	d.showList.Fill(lines, nothing(d.showSearch.Text, text.Everywhere, "This show has nothing of the house's stock."))
	d.fillDays()
}

// nothing says why a list is empty.
func nothing(query, place, all string) string {
	switch {
	case query != "":
		return "Nothing here holds “" + query + "”."
	case place != text.Everywhere:
		return "Nothing is " + place + "."
	}
	return all
}

func (d *houseDialog) tell(text string, bad bool) {
	d.told.Importance = widget.MediumImportance
	if bad {
		d.told.Importance = widget.DangerImportance
	}
	d.told.SetText(text)
}

// edit opens the form of the selected reel of the house.
func (d *houseDialog) edit() {
	if !d.selectTyped() {
		return
	}
	selected := d.houseList.Selected()
	if len(selected) != 1 {
		d.tell("Select one line of the house to edit it.", true)
		return
	}
	d.EditReel(d.inSteps(), d.house[selected[0]].Reel.ID)
}
