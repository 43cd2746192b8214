package printing

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/words"
	"stageloom/report"
	"stageloom/ui/dialogs"
)

const pdf = ".pdf"

func (p *Dialogs) printTo(path string, choice report.Choice) {
	ctx, cancel := context.WithCancel(context.Background())
	bar := widget.NewProgressBar()
	progress := dialogs.New(p, "Printing", bar)
	progress.SetButtons([]fyne.CanvasObject{dialogs.NewAnswer(p, "Cancel", cancel)})
	progress.Fit(dialogs.QuestionWidth, 0)
	p.Keys().Escapable(cancel)
	progress.Show()
	choice.Progress = func(page, pages int) {
		fyne.Do(func() { bar.SetValue(float64(page) / float64(max(1, pages))) })
	}
	assessment := p.Desk().Assessment() // a snapshot: editing may go on
	go func() {
		printed, err := report.Print(ctx, path, assessment, choice)
		cancel()
		fyne.Do(func() {
			progress.Hide()
			p.printed(path, printed, err)
		})
	}()
}

func (p *Dialogs) printed(path string, printed report.Printed, err error) {
	switch {
	case errors.Is(err, context.Canceled):
		p.Say("Not printed: cancelled.")
		return
	case err != nil:
		p.Warn(words.Sentence(err))
		return
	}
	text := fmt.Sprintf("Printed %d pages: %s", printed.Pages, path)
	if len(printed.Notices) > 0 {
		text += ". " + strings.Join(printed.Notices, " ")
	}
	p.Say(text)
	if err := p.OpenURL(&url.URL{Scheme: "file", Path: path}); err != nil {
		p.Say(text + ". No program was found to show it: open the file by hand.")
	}
}

// SaveSpreadsheet asks where to and writes what a print says as a workbook.
func (p *Dialogs) SaveSpreadsheet() {
	const xlsx = ".xlsx"
	dialogs.AskName(p, "Save as spreadsheet", issuedName(p.Desk().Plan(), p.Desk().Plan().Settings.Name)+xlsx, xlsx, "Save", func(path string) {
		assessment := p.Desk().Assessment() // a snapshot: editing may go on
		dialogs.Busy(p, "Writing the spreadsheet", func(ctx context.Context) error {
			_, err := report.SaveSpreadsheet(ctx, path, assessment)
			return err
		}, func(err error) {
			switch {
			case errors.Is(err, context.Canceled):
				p.Say("Given up; " + path + " is as it was.")
			case err != nil:
				p.Warn(words.Sentence(err))
			default:
				p.Say("Links, cables, stock, pull list, patch and findings are in " + path)
			}
		})
	})
}
