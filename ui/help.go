package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/standards"
	"stageloom/ui/dialogs"
)

// keys says what pointer and keys do, in the order of learning.
var keys = [][2]string{
	{"click", "select; with Shift or Ctrl add to the selection or take out"},
	{"double click", "on a device, a link or a position: rename it; on a cable in the run strip: put another in its place"},
	{"rest the pointer", "on a port, a device, a link, a figure of the card, a grade, a name under a curve: it is told what that is"},
	{"drag a device or a position", "move it; runs, losses and grades follow"},
	{"drag empty ground", "select what lies wholly inside the box"},
	{"Escape", "give a drag up; else select nothing"},
	{"wheel", "zoom about the pointer"},
	{"middle button, or space and drag", "shift the view"},
	{"arrows", "nudge the selection by a metre (a foot); with Shift a tenth; with nothing selected shift the view"},
	{"+  −  0", "larger, smaller, whole plan"},
	{"Ctrl L, Ctrl D, Ctrl T", "next link, device, position; with Shift the one before"},
	{"Ctrl G", "next finding"},
	{"Ctrl F", "find a device, link, position, area or cable by name or tag"},
	{"Ctrl E", "find a kind of equipment; Down and Up choose, Enter places it, or adds it to the list only as the choice below says; Escape goes back to the plan"},
	{"Ctrl Shift E", "find a cable of the stock by tag, kind or case; Down and Up choose, Enter lays it on the selected link"},
	{"Ctrl Shift N, I, M", "add reels; edit the chosen reel, mark it faulty; a right click has the same"},
	{"Ctrl Shift O, X, H", "import a list, export the stock, the house's stock; a list dropped on the window is imported too"},
	{"drag from a free port", "draw a link to another device; Ctrl K links two ports by keys"},
	{"Ctrl J", "lay cable for the selected link; with Shift take the last one off"},
	{"drag a cable in the run strip", "put it elsewhere in the link; its end dragged onto the next joins the two; right click for more"},
	{"drag a cable of the stock", "onto the run strip, between cables or on one to replace it, or onto a link of the plan"},
	{"drag the mark on a chosen cable", "cut it there; a click on a coupler says which one it is"},
	{"Ctrl 1 to 9", "links, cables, devices, stock, inputs, findings, patch, sockets, acts as a table; with Shift 1 to 3 outputs, positions, house lines; Escape goes back to the plan"},
	{"in the patch", "type a socket (SL 3, or 3) or a channel; into several rows it goes in order; struck does without it in an act"},
	{"Ctrl Shift K", "in the patch: so many in order from here; the Patch menu swaps, shifts, sorts, strikes"},
	{"Ctrl Page Down, Page Up", "the patch of the next act, of the one before"},
	{"drag a selected socket or channel", "in the patch: to another row, where the two change places; inputs also onto a device of the plan"},
	{"in a table", "type or F2 edits, Enter keeps and goes down, Tab to the right, Escape discards; what is typed goes into all selected rows"},
	{"Shift and arrows, Ctrl and click, Ctrl A", "select rows; Ctrl C and V go to a spreadsheet and back, with Shift Ctrl C rows with headings"},
	{"Ctrl Space, Shift Space", "in a table: all rows of the column, all columns of the rows"},
	{"Ctrl F, F3, Insert, Ctrl Delete", "in a table: filter, sort by the column, new row, delete rows; Ctrl Enter shows the row on the plan"},
	{"F6, then arrows", "go along the cables of the strip; Up and Down move the one that is chosen, Delete takes it off, Return has more"},
	{"F6, then S, J, C, R, B, A", "cut (arrows, Return), join with the next, coupler before it, replace, lay one before, one after"},
	{"Ctrl Shift R", "replace the cable chosen in the strip, or the link's first"},
	{"Ctrl I", "the selected link's own figures: rises, slack, temperature, wanted margin and kind"},
	{"F4", "the fields of the card: Tab goes on, Enter keeps, Escape puts back and then leaves; what was typed is kept when you go"},
	{"Ctrl M", "pick the cables for the selected links, or for all"},
	{"Ctrl Shift Y", "what can replace the cable chosen in the strip, or the link's first, now"},
	{"F8", "curves of the selected link, how far each kind of cable reaches, what would cure it"},
	{"drag a selected link's line", "lay it round things; W adds a way point, N and P go along them, arrows nudge one, Delete takes it away"},
	{"L, or a click on a loom's name", "select the loom of a link: its route is drawn as a link's way is, and all its links follow"},
	{"Ctrl ,", "settings: how plans are shown, and what new plans begin with"},
	{"F5", "find a command by words of its name; Down and Up choose, Enter does it"},
	{"F7", "what is shown: labels, names, positions, areas, looms, links by grade and transport, levels"},
	{"F9", "the day view for the field: one link large; N and P go on and back, L, J, T mark it laid, joined, tested"},
	{"in the day view", "Up, Down or a digit choose a cable, S swaps it, F marks it faulty, U undoes, A shows only what is left, / finds, Escape leaves"},
	{"Ctrl C, X, V", "copy, cut and paste devices and positions with the links between them, also to another window"},
	{"Delete, F2, M", "delete, rename, measure"},
	{"Ctrl R, Ctrl B, Ctrl U", "turn the link round; pair main and backup; double the link on the next ports"},
	{"Ctrl Shift U, Ctrl Shift B", "lay a spare beside the link, plugged in nowhere; let a laid spare take over the link that is dead"},
	{"Ctrl Z, Ctrl Shift Z, Ctrl H", "undo, redo, history"},
	{"Ctrl N, O, S, Shift S, P, Q", "new, open, save, save as, print to PDF, quit"},
}

func (w *window) showKeys() {
	grid := container.New(&pairs{})
	for _, pair := range keys {
		what := widget.NewLabelWithStyle(pair[0], fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
		does := widget.NewLabel(pair[1])
		does.Wrapping = fyne.TextWrapWord
		grid.Add(what)
		grid.Add(does)
	}
	w.showText("Pointer and keys", grid)
}

// pairs lays out two columns, the first as wide as a third.
type pairs struct{}

// MinSize implements fyne.Layout.
func (*pairs) MinSize(objects []fyne.CanvasObject) fyne.Size {
	height := float32(0)
	for i := 0; i+1 < len(objects); i += 2 {
		height += max(objects[i].MinSize().Height, objects[i+1].MinSize().Height)
	}
	return fyne.NewSize(300, height)
}

// Layout implements fyne.Layout.
func (*pairs) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	y, first := float32(0), size.Width*0.36
	for i := 0; i+1 < len(objects); i += 2 {
		objects[i].Resize(fyne.NewSize(first, objects[i].MinSize().Height))
		objects[i+1].Resize(fyne.NewSize(size.Width-first, objects[i+1].MinSize().Height))
		height := max(objects[i].MinSize().Height, objects[i+1].MinSize().Height)
		objects[i].Move(fyne.NewPos(0, y))
		objects[i+1].Move(fyne.NewPos(first, y))
		y += height
	}
}

func (w *window) showCautions() {
	grid := container.New(&pairs{})
	for _, caution := range standards.Cautions() {
		text := widget.NewLabel(caution.Text)
		text.Wrapping = fyne.TextWrapWord
		grid.Add(widget.NewLabelWithStyle(caution.About, fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
		grid.Add(text)
	}
	w.showText("Cautions", grid)
}

func (w *window) showAbout() {
	label := widget.NewLabel("Stageloom " + w.app.Metadata().Version + "\n\n" +
		"Designs the stage system of a live show: what stands where, which cables join into each link, and how much " +
		"loss each link has in hand.\n\nFigures are computed from catalogue maxima and stated rules; each names its " +
		"source. They do not replace a test of the real link, local codes, the venue's rules or licensed practice.\n\n" +
		"Apache License 2.0. The licences of the libraries lie with their sources; the letters are Noto Sans and " +
		"DejaVu, both under free licences.")
	label.Wrapping = fyne.TextWrapWord
	w.showText("About Stageloom", label)
}

func (w *window) showText(title string, content fyne.CanvasObject) {
	d := dialog.NewCustom(title, "Close", container.NewVScroll(container.NewPadded(content)), w.window)
	size := w.window.Canvas().Size()
	d.Resize(fyne.NewSize(min(760, size.Width*0.9), min(620, size.Height*0.85)))
	w.Keys().Escapable(d.Hide)
	d.Show()
}

// showHistory lists the steps; a click goes there.
func (w *window) showHistory() {
	names, at := w.desk.History()
	note := func(i int) string {
		switch {
		case i == at:
			return "now"
		case i > at:
			return "undone"
		}
		return ""
	}
	list := dialogs.NewPickList(w,
		func() int { return len(names) },
		func(i int) (words, small string, usable bool) { return names[i], note(i), i <= at },
		func(int) {},
	)
	list.Select(at)
	list.ScrollTo(at)
	list.OnSelected = func(i int) {
		w.desk.GoTo(i)
		_, at = w.desk.History()
		list.Refresh()
	}
	d := dialog.NewCustom("History: a click goes there", "Close", list, w.window)
	d.Resize(fyne.NewSize(420, 460))
	w.Keys().Escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(list)
}
