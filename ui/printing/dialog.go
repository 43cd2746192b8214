package printing

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
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/words"
	"stageloom/report"
	"stageloom/ui/dialogs"
	"stageloom/ui/pointer"
)

// printDialog chooses what to print, shows its pages as pictures, and prints.
type printDialog struct {
	*Dialogs
	dialog     *dialogs.Dialog
	choice     report.Choice
	assessment *assess.Assessment // a snapshot: what is looked at is what is printed
	positions  []plan.Position

	packs        map[report.Pack]*widget.Check
	labels       map[report.Chapter]*dialogs.Check
	name, folder *dialogs.Entry
	sheet, used  *dialogs.Entry
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

// Print opens the dialog of a print with what was chosen last in this window.
func (p *Dialogs) Print() {
	d := &printDialog{Dialogs: p, assessment: p.Desk().Assessment(), page: 1, packs: map[report.Pack]*widget.Check{}, labels: map[report.Chapter]*dialogs.Check{}}
	d.choice = report.ChoiceOf(p.Desk().Plan(), time.Now())
	d.choice.Packs = slices.Clone(p.last)
	if len(d.choice.Packs) == 0 {
		d.choice.Packs = []report.Pack{report.Lay}
	}
	d.build()
	d.dialog.Fit(dialogs.WideWidth, printHeight)
	p.Keys().Escapable(d.close)
	d.dialog.Show()
	dialogs.Focus(p, d.name)
	d.look()
}

// build makes the form on the left and the page on the right.
func (d *printDialog) build() {
	d.told = widget.NewLabel("")
	d.told.Alignment = fyne.TextAlignCenter
	d.picture = canvas.NewImageFromImage(image.NewRGBA(image.Rect(0, 0, 1, 1)))
	d.picture.FillMode, d.picture.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleSmooth
	d.tips = d.Tips()
	d.back = pointer.NewIconButton(theme.NavigateBackIcon(), "The page before", d.tips, func() { d.turn(-1) })
	d.on = pointer.NewIconButton(theme.NavigateNextIcon(), "The next page", d.tips, func() { d.turn(1) })
	desk := canvas.NewRectangle(theme.Color(theme.ColorNameButton)) // so that the edge of the paper shows
	page := container.NewBorder(nil, container.NewBorder(nil, nil, d.back, d.on, d.told), nil, nil, container.NewStack(desk, container.NewPadded(d.picture)))

	d.trouble = widget.NewLabel("")
	d.trouble.Wrapping, d.trouble.Importance = fyne.TextWrapWord, widget.DangerImportance
	form := container.NewVScroll(container.NewVBox(d.packChecks(), d.labelChecks(), widget.NewSeparator(), d.form(), d.trouble))
	left := container.New(&dialogs.LeastWidth{Width: choiceWidth}, form)
	d.dialog = dialogs.New(d, "Print to PDF", dialogs.Tipped(container.NewBorder(nil, nil, left, nil, page), d.tips))
	take := dialogs.NewAnswer(d, "Print", d.take)
	take.Importance = widget.HighImportance
	d.dialog.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(d, "Cancel", d.close), take})
}

const everywhere = "everywhere"

// fileName is the plan's name and how it stands to its revisions, as a PDF.
func (d *printDialog) fileName() string {
	name := d.assessment.Plan.Settings.Name
	if path := d.Desk().Path(); path != "" {
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
	if len(d.choice.Packs) == 0 && len(d.choice.Chapters) == 0 {
		return errors.New("choose a pack or labels to print")
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

const (
	everyAct  = "all acts"
	everyBox  = "all boxes"
	samePaper = "the same paper"
)

// proofScale is how many pixels a millimetre of the page gets: readable, and drawn in a blink.
const proofScale = 3.2

// look draws the page at hand beside the window's work; the picture before stays until then.
func (d *printDialog) look() {
	d.stop()
	if err := d.ready(); err != nil {
		d.trouble.SetText(words.Sentence(err))
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
		d.trouble.SetText(words.Sentence(err))
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
		d.trouble.SetText(words.Sentence(err))
		return
	}
	path, reason := dialogs.PathOf(d.folder.Text, d.name.Text, pdf)
	if reason != "" {
		d.trouble.SetText(reason)
		return
	}
	d.last = slices.Clone(d.choice.Packs)
	d.close()
	dialogs.ConfirmReplace(d, path, func(path string) { d.printTo(path, d.choice) })
}
