package ui

import (
	"context"
	"errors"
	"fmt"
	"image"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/report"
	"stageloom/ui/pointer"
)

// printDialog chooses what to print, shows its pages as pictures, and prints.
type printDialog struct {
	*window
	dialog     *dialog.CustomDialog
	choice     report.Choice
	assessment *assess.Assessment // a snapshot: what is looked at is what is printed
	positions  []plan.Position

	packs        map[report.Pack]*widget.Check
	name, folder *field
	sheet, used  *field
	trouble      *widget.Label

	picture  *canvas.Image
	told     *widget.Label
	back, on *pointer.IconButton
	tips     *pointer.Tips
	page     int
	pages    int
	entries  []report.Entry
	working  context.CancelFunc // of the picture that is being drawn
	run      int                // counts pictures asked for, so that late ones are dropped
}

// Sizes of the dialog in units of the window, beyond which it doesn't grow.
const (
	printWidth  = 1180
	printHeight = 760
	choiceWidth = 400
)

// print opens the dialog with what was chosen last in this window.
func (w *window) print() {
	d := &printDialog{window: w, assessment: w.desk.Assessment(), page: 1, packs: map[report.Pack]*widget.Check{}}
	d.choice = report.ChoiceOf(w.desk.Plan(), time.Now())
	d.choice.Packs = slices.Clone(w.lastPacks)
	if len(d.choice.Packs) == 0 {
		d.choice.Packs = []report.Pack{report.Lay}
	}
	d.build()
	size := w.window.Canvas().Size()
	d.dialog.Resize(fyne.NewSize(min(printWidth, size.Width-40), min(printHeight, size.Height-40)))
	w.escapable(d.close)
	d.dialog.Show()
	w.window.Canvas().Focus(d.name)
	d.look()
}

// build makes the form on the left and the page on the right.
func (d *printDialog) build() {
	d.told = widget.NewLabel("")
	d.told.Alignment = fyne.TextAlignCenter
	d.picture = canvas.NewImageFromImage(image.NewRGBA(image.Rect(0, 0, 1, 1)))
	d.picture.FillMode, d.picture.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleSmooth
	d.tips = pointer.NewTips(afterOf(d.app))
	d.back = pointer.NewIconButton(theme.NavigateBackIcon(), "The page before", d.tips, func() { d.turn(-1) })
	d.on = pointer.NewIconButton(theme.NavigateNextIcon(), "The next page", d.tips, func() { d.turn(1) })
	desk := canvas.NewRectangle(theme.Color(theme.ColorNameButton)) // so that the edge of the paper shows
	page := container.NewBorder(nil, container.NewBorder(nil, nil, d.back, d.on, d.told), nil, nil, container.NewStack(desk, container.NewPadded(d.picture)))

	d.trouble = widget.NewLabel("")
	d.trouble.Wrapping, d.trouble.Importance = fyne.TextWrapWord, widget.DangerImportance
	form := container.NewVScroll(container.NewVBox(d.packChecks(), widget.NewSeparator(), d.form(), d.trouble))
	left := container.New(&leastWidth{choiceWidth}, form)
	d.dialog = dialog.NewCustomWithoutButtons("Print to PDF", d.tipped(container.NewBorder(nil, nil, left, nil, page), d.tips), d.window.window)
	take := widget.NewButton("Print", d.take)
	take.Importance = widget.HighImportance
	d.dialog.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", d.close), take})
}

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

// choosePacks takes the packs that are ticked.
func (d *printDialog) choosePacks() {
	d.choice.Packs = nil
	for _, pack := range report.Packs() {
		if d.packs[pack].Checked {
			d.choice.Packs = append(d.choice.Packs, pack)
		}
	}
	d.page = 1
	d.look()
}

const everywhere = "everywhere"

func (d *printDialog) form() *widget.Form {
	size := d.newChooser([]string{"A4", "A3", "Letter"}, func(size string) { d.choice.Paper = size; d.look() })
	size.Selected = d.choice.Paper
	grey := widget.NewCheck("black and white: grades by line and badge", func(on bool) { d.choice.Grey = on; d.look() })
	grey.Checked = d.choice.Grey
	changed := widget.NewCheck("links laid otherwise than at the last revision", func(on bool) { d.choice.Changed = on; d.look() })
	if d.assessment.Plan.Revisions.Len() == 0 {
		changed.Disable()
	}
	d.used, d.sheet, d.name, d.folder = d.newField(), d.newField(), d.newField(), d.newField()
	d.used.SetText("0")
	d.used.OnChanged = func(string) { d.look() }
	d.sheet.SetPlaceHolder(report.LabelSheetFor(d.choice.Paper).String() + ", on plain paper")
	d.sheet.OnChanged = func(string) { d.look() }
	d.name.SetText(d.fileName())
	d.folder.SetText(d.window.folder())
	d.name.OnSubmitted = func(string) { d.take() }
	d.folder.OnSubmitted = func(string) { d.take() }
	return widget.NewForm(
		widget.NewFormItem("Paper", size), widget.NewFormItem("Plan on", d.planChooser()), widget.NewFormItem("Ink", grey),
		widget.NewFormItem("Where", d.positionChooser()), widget.NewFormItem("Only", changed), widget.NewFormItem("Act", d.actChooser()),
		widget.NewFormItem("Label sheet", d.sheet), widget.NewFormItem("Labels used", d.used),
		widget.NewFormItem("Name", d.name), widget.NewFormItem("Folder", d.browsed(d.folder)),
	)
}

// planChooser puts the plan's pages on another sheet than the rest.
func (d *printDialog) planChooser() *chooser {
	list := d.newChooser([]string{samePaper, "A4", "A3", "Letter"}, nil)
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
func (d *printDialog) positionChooser() *chooser {
	for position := range d.assessment.Plan.Positions.All() {
		d.positions = append(d.positions, position)
	}
	slices.SortStableFunc(d.positions, func(a, b plan.Position) int { return assess.Natural(a.Name, b.Name) })
	names := []string{everywhere}
	for _, position := range d.positions {
		names = append(names, position.Name)
	}
	list := d.newChooser(names, nil)
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

// fileName is the plan's name and how it stands to its revisions, as a PDF.
func (d *printDialog) fileName() string {
	name := d.assessment.Plan.Settings.Name
	if path := d.desk.Path(); path != "" {
		name = strings.TrimSuffix(filepath.Base(path), filepath.Ext(path))
	}
	return issuedName(d.assessment.Plan, name) + pdf
}

func (d *printDialog) turn(by int) {
	d.page += by
	d.look()
}

// ready takes the figures typed and says what is wrong with the choice.
func (d *printDialog) ready() error {
	if len(d.choice.Packs) == 0 {
		return errors.New("choose a pack to print")
	}
	d.choice.Labels = report.LabelSheet{}
	used := strings.TrimSpace(d.used.Text)
	if d.sheet.Text == "" && (used == "" || used == "0") {
		return nil
	}
	sheet, err := report.ReadLabelSheet(d.sheet.Text, d.choice.Paper)
	if err != nil {
		return err
	}
	if used != "" {
		if sheet.Skip, err = strconv.Atoi(used); err != nil {
			return fmt.Errorf("%q labels can't be used up: type a number", used)
		}
	}
	d.choice.Labels = sheet
	return nil
}

// actChooser prints the patch of one act, or of all.
func (d *printDialog) actChooser() *chooser {
	names := []string{everyAct}
	acts := slices.Collect(d.assessment.Plan.Acts.All())
	slices.SortStableFunc(acts, func(a, b plan.Act) int { return a.Order - b.Order })
	for _, act := range acts {
		names = append(names, act.Name)
	}
	list := d.newChooser(names, nil)
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

const (
	everyAct  = "all acts"
	samePaper = "the same paper"
)

// proofScale is how many pixels a millimetre of the page gets: readable, and drawn in a blink.
const proofScale = 3.2

// look draws the page at hand beside the window's work; the picture before stays until then.
func (d *printDialog) look() {
	d.stop()
	if err := d.ready(); err != nil {
		d.trouble.SetText(sentence(err))
		return
	}
	d.trouble.SetText("")
	d.told.SetText("Drawing the page…")
	ctx, cancel := context.WithCancel(context.Background())
	d.working = cancel
	d.run++
	run, page, choice := d.run, d.page, d.choice
	go func() {
		picture, printed, err := report.Proof(ctx, d.assessment, choice, page, proofScale)
		cancel()
		fyne.Do(func() {
			if run == d.run {
				d.shown(picture, printed, err)
			}
		})
	}()
}

// stop calls off the picture that is being drawn.
func (d *printDialog) stop() {
	if d.working != nil {
		d.working()
	}
	d.run++
}

// shown puts a page on the right.
func (d *printDialog) shown(picture *image.RGBA, printed report.Printed, err error) {
	if err != nil {
		d.told.SetText("")
		d.trouble.SetText(sentence(err))
		return
	}
	d.pages, d.entries = printed.Pages, printed.Entries
	if picture == nil { // the choice has fewer pages than before
		d.page = max(1, min(d.page, d.pages))
		d.look()
		return
	}
	d.picture.Image = picture
	d.picture.Refresh()
	d.told.SetText(fmt.Sprintf("Page %d of %d: %s", d.page, d.pages, d.chapter()))
	enable(&d.back.Button, d.page > 1)
	enable(&d.on.Button, d.page < d.pages)
}

// chapter names the chapter that the page belongs to.
func (d *printDialog) chapter() string {
	name := ""
	for _, entry := range d.entries {
		if entry.Page <= d.page {
			name = entry.Name
		}
	}
	return name
}

func enable(button *widget.Button, on bool) {
	if on {
		button.Enable()
	} else {
		button.Disable()
	}
}

func (d *printDialog) close() {
	d.stop()
	d.dialog.Hide()
}

// take prints what is chosen.
func (d *printDialog) take() {
	if err := d.ready(); err != nil {
		d.trouble.SetText(sentence(err))
		return
	}
	path, reason := pathOf(d.folder.Text, d.name.Text, pdf)
	if reason != "" {
		d.trouble.SetText(reason)
		return
	}
	d.lastPacks = slices.Clone(d.choice.Packs)
	d.close()
	d.confirmReplace(path, func(path string) { d.printTo(path, d.choice) })
}

// leastWidth gives its one content a width.
type leastWidth struct{ width float32 }

// MinSize implements fyne.Layout.
func (l *leastWidth) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(l.width, objects[0].MinSize().Height)
}

// Layout implements fyne.Layout.
func (*leastWidth) Layout(objects []fyne.CanvasObject, size fyne.Size) { objects[0].Resize(size) }
