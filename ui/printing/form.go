package printing

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/report"
	"stageloom/ui/dialogs"
)

// packChecks lists the packs, each with its reader.
func (d *printDialog) packChecks() fyne.CanvasObject {
	box := container.NewVBox(widget.NewLabelWithStyle("Packs", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}))
	for _, pack := range report.Packs() {
		name, reader := pack.Name()
		check := widget.NewCheck(name+": "+strings.ToLower(reader[:1])+reader[1:], nil)
		check.Checked = slices.Contains(d.choice.Packs, pack)
		check.OnChanged = func(bool) { d.choosePacks() }
		d.packs[pack] = check
		box.Add(check)
	}
	return box
}

// labelChecks are the labels of the stock, which no pack holds.
func (d *printDialog) labelChecks() fyne.CanvasObject {
	box := container.NewHBox()
	for _, label := range []struct {
		words   string
		chapter report.Chapter
	}{{"Reel labels", report.ReelLabels}, {"Case labels", report.CaseLabels}} {
		check := dialogs.NewCheck(d, label.words, false, func(bool) { d.choosePacks() })
		d.labels[label.chapter] = check
		box.Add(check)
	}
	return box
}

// choosePacks takes the packs and the labels that are ticked.
func (d *printDialog) choosePacks() {
	d.choice.Packs, d.choice.Chapters = nil, nil
	for _, chapter := range report.Chapters() {
		if check := d.labels[chapter]; check != nil && check.Checked {
			d.choice.Chapters = append(d.choice.Chapters, chapter)
		}
	}
	for _, pack := range report.Packs() {
		if d.packs[pack].Checked {
			d.choice.Packs = append(d.choice.Packs, pack)
		}
	}
	d.page = 1
	d.look()
}

func (d *printDialog) form() *widget.Form {
	size := dialogs.NewChooser(d, []string{"A4", "A3", "Letter"}, func(size string) { d.choice.Paper = size; d.look() })
	size.Selected = d.choice.Paper
	grey := widget.NewCheck("black and white: grades by line and badge", func(on bool) { d.choice.Grey = on; d.look() })
	grey.Checked = d.choice.Grey
	changed := widget.NewCheck("links laid otherwise than at the last revision", func(on bool) { d.choice.Changed = on; d.look() })
	if d.assessment.Plan.Revisions.Len() == 0 {
		changed.Disable()
	}
	d.used, d.sheet, d.name, d.folder = dialogs.NewEntry(d), dialogs.NewEntry(d), dialogs.NewEntry(d), dialogs.NewEntry(d)
	d.used.SetText("0")
	d.used.OnChanged = func(string) { d.look() }
	d.sheet.SetPlaceHolder(report.LabelSheetFor(d.choice.Paper).String() + ", on plain paper")
	d.sheet.OnChanged = func(string) { d.look() }
	d.name.SetText(d.fileName())
	d.folder.SetText(d.Folder())
	d.name.OnSubmitted = func(string) { d.take() }
	d.folder.OnSubmitted = func(string) { d.take() }
	return widget.NewForm(
		widget.NewFormItem("Paper", size), widget.NewFormItem("Plan on", d.planChooser()), widget.NewFormItem("Ink", grey),
		widget.NewFormItem("Where", d.positionChooser()), widget.NewFormItem("Only", changed), widget.NewFormItem("Act", d.actChooser()),
		widget.NewFormItem("Box", d.boxChooser()),
		widget.NewFormItem("Label sheet", d.sheet), widget.NewFormItem("Labels used", d.used),
		widget.NewFormItem("Name", d.name), widget.NewFormItem("Folder", dialogs.Browsed(d, d.folder)),
	)
}

// planChooser puts the plan's pages on another sheet than the rest.
func (d *printDialog) planChooser() *dialogs.Chooser {
	list := dialogs.NewChooser(d, []string{samePaper, "A4", "A3", "Letter"}, nil)
	list.Selected = samePaper
	list.OnChanged = func(size string) {
		d.choice.PlanPaper = size
		if size == samePaper {
			d.choice.PlanPaper = ""
		}
		d.look()
	}
	return list
}

// positionChooser prints what ends at one position, or everything.
func (d *printDialog) positionChooser() *dialogs.Chooser {
	for position := range d.assessment.Plan.Positions.All() {
		d.positions = append(d.positions, position)
	}
	slices.SortStableFunc(d.positions, func(a, b plan.Position) int { return words.Natural(a.Name, b.Name) })
	names := []string{everywhere}
	for _, position := range d.positions {
		names = append(names, position.Name)
	}
	list := dialogs.NewChooser(d, names, nil)
	list.Selected = everywhere
	list.OnChanged = func(string) { d.limit(list.SelectedIndex()) }
	return list
}

// limit prints what ends at one position; the first of the list is all of them.
func (d *printDialog) limit(index int) {
	d.choice.Position = ""
	if index > 0 {
		d.choice.Position = d.positions[index-1].ID
	}
	d.look()
}

// actChooser prints the patch of one act, or of all.
func (d *printDialog) actChooser() *dialogs.Chooser {
	names := []string{everyAct}
	acts := slices.Collect(d.assessment.Plan.Acts.All())
	slices.SortStableFunc(acts, func(a, b plan.Act) int { return a.Order - b.Order })
	for _, act := range acts {
		names = append(names, act.Name)
	}
	list := dialogs.NewChooser(d, names, nil)
	list.Selected = everyAct
	list.OnChanged = func(string) {
		d.choice.Act = ""
		if i := list.SelectedIndex(); i > 0 {
			d.choice.Act = acts[i-1].ID
		}
		d.look()
	}
	if len(acts) == 0 {
		list.Disable()
	}
	return list
}

// boxChooser prints the patch of one box or console, or of all.
func (d *printDialog) boxChooser() *dialogs.Chooser {
	names, ids := []string{everyBox}, []plan.DeviceID{""}
	view := d.assessment.Patch
	for id := range view.ByName() {
		if view.Sockets(id, false) > 0 || view.Sockets(id, true) > 0 {
			names, ids = append(names, view.Name(id)), append(ids, id)
		}
	}
	list := dialogs.NewChooser(d, names, nil)
	list.Selected = everyBox
	list.OnChanged = func(string) {
		d.choice.Device = ids[max(0, list.SelectedIndex())]
		d.look()
	}
	if len(ids) == 1 {
		list.Disable()
	}
	return list
}
