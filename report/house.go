package report

import (
	"context"
	"fmt"
	"image"
	"io"
	"slices"
	"strings"
	"time"

	"stageloom/model/house"
	"stageloom/report/paper"
)

// HouseSheet names a chapter of a print of the house's stock.
type HouseSheet string

// The sheets of the house.
const (
	HouseWho        HouseSheet = "who"      // which show has what, and when it is due
	HouseStates     HouseSheet = "states"   // what is missing, in repair, written off
	HousePromised   HouseSheet = "promised" // what shows to come are promised
	HouseStock      HouseSheet = "stock"    // all of the stock by kind and length, and where it is
	HouseCases      HouseSheet = "cases"    // what is in each case, and what it takes
	HouseTruck      HouseSheet = "truck"    // by show what its truck carries, case by case
	HouseReelLabels HouseSheet = "reel-labels"
	HouseCaseLabels HouseSheet = "case-labels"
)

// houseContent is a sheet of the house and how it is drawn.
type houseContent struct {
	sheet HouseSheet
	name  string
	draw  func(*housePrint, *paper.Book)
}

var houseContents = []houseContent{
	{HouseWho, "Who has what", (*housePrint).drawWho},
	{HouseStates, "Missing, in repair, written off", (*housePrint).drawStates},
	{HousePromised, "Promised", (*housePrint).drawPromised},
	{HouseStock, "All of the stock", (*housePrint).drawStanding},
	{HouseCases, "Cases", (*housePrint).drawCases},
	{HouseTruck, "Truck lists", (*housePrint).drawTrucks},
	{HouseReelLabels, "Reel labels", (*housePrint).drawReelLabels},
	{HouseCaseLabels, "Case labels", (*housePrint).drawCaseLabels},
}

// HouseLists returns the sheets that are lists, in the order in which they are printed.
func HouseLists() []HouseSheet {
	return []HouseSheet{HouseWho, HouseStates, HousePromised, HouseStock, HouseCases, HouseTruck}
}

// Name is what the sheet is called.
func (s HouseSheet) Name() string {
	for _, c := range houseContents {
		if c.sheet == s {
			return c.name
		}
	}
	return string(s)
}

// HouseChoice says what to print of the house's stock, on what and for which day.
type HouseChoice struct {
	// Paper is A4, A3 or Letter; blank is A4.
	Paper string
	// Day is the day that the lists tell of, as 2027-06-22; blank is the day of the print.
	Day string
	// Date is printed on every page and required.
	Date time.Time
	// Sheets are those to print, in the order of the lists and labels behind them; none are all lists.
	Sheets []HouseSheet
	// Labels is the sheet of labels; the zero sheet is that of LabelSheetFor the paper, on plain paper.
	Labels LabelSheet
	// Progress, when set, is told of every page as it is drawn.
	Progress func(page, pages int)
	// Uncompressed leaves page streams readable.
	Uncompressed bool
}

// housePrint is one print of the house while it is made.
type housePrint struct {
	house.Stock
	choice HouseChoice
	day    string
}

// PrintHouse writes sheets of the house's stock into a file, which is whole or as it was before.
func PrintHouse(ctx context.Context, path string, s house.Stock, choice HouseChoice) (Printed, error) {
	chapters, err := houseChapters(s, &choice)
	if err != nil {
		return Printed{}, err
	}
	done, err := paper.Save(ctx, path, houseSetup(choice), chapters...)
	return houseTold(s, choice, done), err
}

// WriteHouse writes sheets of the house's stock to w.
func WriteHouse(ctx context.Context, w io.Writer, s house.Stock, choice HouseChoice) (Printed, error) {
	chapters, err := houseChapters(s, &choice)
	if err != nil {
		return Printed{}, err
	}
	done, err := paper.Write(ctx, w, houseSetup(choice), chapters...)
	return houseTold(s, choice, done), err
}

// ProofHouse draws one page of a print of the house as a picture, as Proof does one of a plan.
func ProofHouse(ctx context.Context, s house.Stock, choice HouseChoice, page int, scale float64) (*image.RGBA, Printed, error) {
	chapters, err := houseChapters(s, &choice)
	if err != nil {
		return nil, Printed{}, err
	}
	picture, done, err := paper.Proof(ctx, houseSetup(choice), page, scale, chapters...)
	return picture, printed(done), err
}

// houseTold says what was printed, and which cables got no label.
func houseTold(s house.Stock, choice HouseChoice, done paper.Print) Printed {
	told := printed(done)
	if said := untagged(s.Plan); said != "" && slices.Contains(choice.Sheets, HouseReelLabels) {
		told.Notices = append(told.Notices, said)
	}
	return told
}

func houseSetup(choice HouseChoice) paper.Setup {
	return paper.Setup{
		Plan: "House stock", Dates: []string{"as of " + choice.Day}, Made: choice.Date,
		Format: paper.Format{Sheet: paper.Size(choice.Paper)}, Uncompressed: choice.Uncompressed, Drawing: choice.Progress,
	}
}

// houseChapters checks the choice, fills in its day and returns what it chooses, ready to draw.
func houseChapters(s house.Stock, choice *HouseChoice) ([]paper.Chapter, error) {
	if choice.Date.IsZero() {
		return nil, fmt.Errorf("print the house's stock: the date of the print is missing")
	}
	if choice.Day == "" {
		choice.Day = choice.Date.Format(time.DateOnly)
	}
	if err := choice.check(); err != nil {
		return nil, fmt.Errorf("print the house's stock: %w", err)
	}
	sheets := choice.Sheets
	if len(sheets) == 0 {
		sheets = HouseLists()
	}
	p := &housePrint{Stock: s, choice: *choice, day: choice.Day}
	var chapters []paper.Chapter
	for _, c := range houseContents {
		if slices.Contains(sheets, c.sheet) {
			chapters = append(chapters, paper.Chapter{Name: c.name, Draw: func(b *paper.Book) error { c.draw(p, b); return b.Err() }})
		}
	}
	return chapters, nil
}

// check refuses what is not known.
func (c HouseChoice) check() error {
	if _, err := time.Parse(time.DateOnly, c.Day); err != nil {
		return fmt.Errorf("%q is no day: write year, month and day, for instance 2027-06-22", c.Day)
	}
	if _, _, err := (paper.Format{Sheet: paper.Size(c.Paper)}).Size(); err != nil {
		return err
	}
	for _, sheet := range c.Sheets {
		if !slices.ContainsFunc(houseContents, func(known houseContent) bool { return known.sheet == sheet }) {
			var names []string
			for _, known := range houseContents {
				names = append(names, string(known.sheet))
			}
			return fmt.Errorf("sheet %q is not known: choose from %s", sheet, strings.Join(names, ", "))
		}
	}
	return c.Labels.check(paper.Size(c.Paper))
}
