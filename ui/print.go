package ui

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/demo"
	"stageloom/report"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// openDemo puts the demo on the desk, as a plan without a file.
func (w *window) openDemo() {
	w.keepFirst(func() {
		w.notice.Clear()
		w.desk.NewPlan(demo.Weekender())
	})
}

const pdf = ".pdf"

func (w *window) printTo(path string, choice report.Choice) {
	ctx, cancel := context.WithCancel(context.Background())
	bar := widget.NewProgressBar()
	progress := dialog.NewCustomWithoutButtons("Printing", bar, w.window)
	progress.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", cancel)})
	progress.Resize(fyne.NewSize(360, 140))
	progress.Show()
	choice.Progress = func(page, pages int) {
		fyne.Do(func() { bar.SetValue(float64(page) / float64(max(1, pages))) })
	}
	assessment := w.desk.Assessment() // a snapshot: editing may go on
	go func() {
		printed, err := report.Print(ctx, path, assessment, choice)
		cancel()
		fyne.Do(func() {
			progress.Hide()
			w.printed(path, printed, err)
		})
	}()
}

func (w *window) printed(path string, printed report.Printed, err error) {
	switch {
	case errors.Is(err, context.Canceled):
		w.notice.Say("Not printed: cancelled.")
		return
	case err != nil:
		w.notice.Warn(text.Sentence(err))
		return
	}
	text := fmt.Sprintf("Printed %d pages: %s", printed.Pages, path)
	if len(printed.Notices) > 0 {
		text += ". " + strings.Join(printed.Notices, " ")
	}
	w.notice.Say(text)
	if err := w.app.OpenURL(&url.URL{Scheme: "file", Path: path}); err != nil {
		w.notice.Say(text + ". No program was found to show it: open the file by hand.")
	}
}

// saveSpreadsheet asks where to and writes what a print says as a workbook.
func (w *window) saveSpreadsheet() {
	const xlsx = ".xlsx"
	dialogs.AskName(w, "Save as spreadsheet", issuedName(w.desk.Plan(), w.desk.Plan().Settings.Name)+xlsx, xlsx, "Save", func(path string) {
		assessment := w.desk.Assessment() // a snapshot: editing may go on
		dialogs.Busy(w, "Writing the spreadsheet", func(ctx context.Context) error {
			_, err := report.SaveSpreadsheet(ctx, path, assessment)
			return err
		}, func(err error) {
			switch {
			case errors.Is(err, context.Canceled):
				w.notice.Say("Given up; " + path + " is as it was.")
			case err != nil:
				w.notice.Warn(text.Sentence(err))
			default:
				w.notice.Say("Links, cables, stock, pull list, patch and findings are in " + path)
			}
		})
	})
}
