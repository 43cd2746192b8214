package printing

import (
	"context"
	"errors"
	"fmt"
	"net/url"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/model/house"
	"stageloom/model/words"
	"stageloom/report"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// houseSheets are the sheets of the house to tick, the lists ticked from the start.
type houseSheets struct {
	checks map[report.HouseSheet]*dialogs.Check
	order  []report.HouseSheet
}

func newHouseSheets(host dialogs.Host) *houseSheets {
	h := &houseSheets{checks: map[report.HouseSheet]*dialogs.Check{}, order: append(report.HouseLists(), report.HouseReelLabels, report.HouseCaseLabels)}
	for _, sheet := range h.order {
		h.checks[sheet] = dialogs.NewCheck(host, sheet.Name(), slices.Contains(report.HouseLists(), sheet), nil)
	}
	return h
}

// box shows them in two columns.
func (h *houseSheets) box() *widget.FormItem {
	box := container.NewGridWithColumns(2)
	for _, sheet := range h.order {
		box.Add(h.checks[sheet])
	}
	return widget.NewFormItem("Sheets", box)
}

// chosen are those that are ticked.
func (h *houseSheets) chosen() (sheets []report.HouseSheet) {
	for _, sheet := range h.order {
		if h.checks[sheet].Checked {
			sheets = append(sheets, sheet)
		}
	}
	return sheets
}

// HouseLists asks which sheets of the house's stock to print, for which day and where to, and prints them.
func (p *Dialogs) HouseLists() {
	stock, err := p.Library().Stock()
	if err != nil {
		p.Warn(words.Sentence(err))
		return
	}
	if stock.Plan.Reels.Len() == 0 {
		p.Say("The house has no stock yet: nothing to print. House stock… in the menu Stock is where it is made.")
		return
	}
	sheets, day, labels := newHouseSheets(p), dialogs.NewEntry(p), dialogs.NewEntry(p)
	day.SetText(text.Today())
	paper := dialogs.NewChooser(p, []string{"A4", "A3", "Letter"}, nil)
	paper.Selected = p.Desk().Plan().Settings.PrintPaper
	labels.SetPlaceHolder(report.LabelSheetFor(paper.Selected).String() + ", on plain paper")
	dialogs.AskName(p, "Print house lists", "House stock "+text.Today()+pdf, pdf, "Print", func(path string) {
		choice := report.HouseChoice{Paper: paper.Selected, Day: strings.TrimSpace(day.Text), Date: time.Now(), Sheets: sheets.chosen()}
		if len(choice.Sheets) == 0 {
			p.Warn("Nothing was printed: choose a sheet.")
			return
		}
		if strings.TrimSpace(labels.Text) != "" {
			sheet, err := report.ReadLabelSheet(labels.Text, choice.Paper)
			if err != nil {
				p.Warn(words.Sentence(err))
				return
			}
			choice.Labels = sheet
		}
		p.printHouse(path, stock, choice)
	}, sheets.box(), widget.NewFormItem("As of", day), widget.NewFormItem("Paper", paper), widget.NewFormItem("Label sheet", labels))
}

// printHouse prints beside the window and shows what was printed.
func (p *Dialogs) printHouse(path string, stock house.Stock, choice report.HouseChoice) {
	var printed report.Printed
	dialogs.Busy(p, "Printing", func(ctx context.Context) (err error) {
		printed, err = report.PrintHouse(ctx, path, stock, choice)
		return err
	}, func(err error) {
		switch {
		case errors.Is(err, context.Canceled):
			p.Say("Not printed: cancelled.")
			return
		case err != nil:
			p.Warn(words.Sentence(err))
			return
		}
		said := strings.TrimSpace(fmt.Sprintf("Printed %s: %s. %s", words.Counted(printed.Pages, "page", "pages"), path, strings.Join(printed.Notices, " ")))
		p.Say(said)
		if err := p.OpenURL(&url.URL{Scheme: "file", Path: path}); err != nil {
			p.Say(said + " No program was found to show it: open the file by hand.")
		}
	})
}
