package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"stageloom/model/house"
	"stageloom/report"
)

// houseCommand tells of the house's stock, and changes nothing of it.
type houseCommand struct {
	Folder filled `arg:"" help:"The folder that holds the house's stock."`
	List   string `arg:"" optional:"" default:"all" enum:"all,who,states,promised,stock,cases,truck" help:"The list that is meant: ${enum}; all unless stated."`

	Day    filled `placeholder:"YYYY-MM-DD" help:"The day that the lists tell of; today unless stated."`
	JSON   bool   `name:"json" help:"Print for other programs; \"loomsheet schema house\" tells the keys."`
	PDF    filled `name:"pdf" placeholder:"FILE.pdf" help:"Print the sheets as a PDF too."`
	Paper  filled `placeholder:"SHEET" help:"A4, A3 or Letter for the PDF; A4 unless stated."`
	Labels list   `placeholder:"NAME" help:"Print labels into the PDF: reels, cases; without a list named, these alone."`
	Sheet  filled `name:"label-sheet" placeholder:"SHEET" help:"The sheet of labels in mm, as its packet states them: columns x rows, width x height, left, top, gap across, gap down."`
	Used   int    `placeholder:"N" help:"Labels already used up on the first sheet."`
}

// Help follows the flags in --help.
func (houseCommand) Help() string {
	return asWritten(`who       which show has what, and when it is due
states    what is missing, in repair, written off
promised  what shows to come are promised, and what cannot be kept
stock     all of the stock by kind and length, and where it is
cases     what lives in each case, what it weighs and what it takes
truck     by show what its truck carries

It reads the stock and changes nothing.`)
}

// Run prints the lists.
func (c *houseCommand) Run(a *answer) error {
	folder, s, err := houseIn(string(c.Folder))
	if err != nil {
		return err
	}
	if c.Day == "" {
		c.Day = filled(today().Format(time.DateOnly))
	}
	if _, err := time.Parse(time.DateOnly, string(c.Day)); err != nil {
		return fmt.Errorf("--day: %q is no day; write year, month and day, for instance 2027-06-22", c.Day)
	}
	if c.PDF == "" && (len(c.Labels) > 0 || c.Paper != "" || c.Sheet != "" || c.Used != 0) {
		return errors.New("--labels, --label-sheet, --used and --paper are for a print: name its file with --pdf")
	}
	told := c.told()
	if c.JSON {
		text, err := json.MarshalIndent(houseKeysOf(folder, s, string(c.Day), told), "", "  ")
		if err != nil {
			return err
		}
		a.b.Write(append(text, '\n'))
	} else {
		housePages(&a.page, folder, s, string(c.Day), told)
	}
	if c.PDF != "" {
		return c.print(a, s)
	}
	return nil
}

// told are the lists that are asked for.
func (c *houseCommand) told() []report.HouseSheet {
	if c.List == "all" {
		return report.HouseLists()
	}
	return []report.HouseSheet{report.HouseSheet(c.List)}
}

// print writes the sheets as a PDF.
func (c *houseCommand) print(a *answer, s house.Stock) error {
	choice, err := c.choice()
	if err != nil {
		return err
	}
	path := string(c.PDF)
	if err := free(path); err != nil {
		return err
	}
	interrupted, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	printed, err := report.PrintHouse(interrupted, path, s, choice)
	if err != nil {
		return notPrinted(err, path)
	}
	if c.JSON {
		return nil
	}
	a.blank()
	tell(&a.page, path, report.Choice{Paper: choice.Paper}, printed)
	return nil
}

// choice is what to print.
func (c *houseCommand) choice() (report.HouseChoice, error) {
	choice := report.HouseChoice{Paper: "A4", Day: string(c.Day), Date: today(), Sheets: c.told()}
	if c.Paper != "" {
		sheet, known := sheets[strings.ToLower(string(c.Paper))]
		if !known {
			return choice, fmt.Errorf("--paper: %q is not known; write A4, A3 or Letter", c.Paper)
		}
		choice.Paper = sheet
	}
	if len(c.Labels) > 0 && c.List == "all" {
		choice.Sheets = nil
	}
	for _, name := range c.Labels {
		sheet, known := map[string]report.HouseSheet{"reels": report.HouseReelLabels, "cases": report.HouseCaseLabels}[slug(name)]
		if !known {
			return choice, fmt.Errorf("--labels: %q is not known; write reels or cases", name)
		}
		choice.Sheets = append(choice.Sheets, sheet)
	}
	if c.Sheet == "" && c.Used == 0 {
		return choice, nil
	}
	labels, err := report.ReadLabelSheet(string(c.Sheet), choice.Paper)
	if err != nil {
		return choice, fmt.Errorf("--label-sheet: %w", err)
	}
	labels.Skip = c.Used
	choice.Labels = labels
	return choice, nil
}

// houseIn reads the stock that lies in a folder, or that a path names itself. A folder without one is refused: an empty list
// would read as if all were gone.
func houseIn(path string) (folder string, s house.Stock, err error) {
	const ending = ".stageloom-stock"
	if strings.HasSuffix(path, ending) {
		path = filepath.Dir(path)
	}
	entries, err := os.ReadDir(path)
	if err != nil {
		return path, s, fmt.Errorf("%s cannot be read as the folder of a house: %w", path, err)
	}
	if !slices.ContainsFunc(entries, func(e os.DirEntry) bool { return strings.HasSuffix(e.Name(), ending) }) {
		return path, s, fmt.Errorf("%s holds no stock of a house; name the folder that holds the file stock%s", path, ending)
	}
	s, err = house.Open(path).Stock()
	return path, s, err
}
