package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/signal"
	"strings"
	"time"

	"stageloom/model/assess"
	"stageloom/model/atomicfile"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/report"
)

// printCommand prints a plan's cable schedule.
type printCommand struct {
	Plan filled `arg:"" help:"The plan file to print."`

	Output      filled `short:"o" placeholder:"FILE.pdf" help:"Where to print to; the plan's name with .pdf beside it unless stated."`
	Paper       filled `placeholder:"SHEET" help:"A4, A3 or Letter; the plan's own choice unless stated."`
	PlanPaper   filled `name:"plan-paper" placeholder:"SHEET" help:"Another sheet for the plan's own pages: A4, A3 or Letter."`
	Grey        *bool  `negatable:"" help:"Draw links black, told apart by line and badge alone; the plan's own choice unless stated."`
	Date        filled `placeholder:"YYYY-MM-DD" help:"The date on every page; today unless stated."`
	Packs       list   `placeholder:"NAME" help:"Print these packs, each with a front page: ${packs}, or all; lay and engineer unless stated."`
	Chapters    list   `placeholder:"NAME" help:"Print these chapters alone: ${chapters}."`
	Position    filled `placeholder:"NAME" help:"Print only what ends at this position."`
	Act         filled `placeholder:"NAME" help:"Print the patch of this act alone."`
	Device      filled `placeholder:"NAME" help:"Print the patch of this box or console alone, and of links those that end there."`
	Changed     bool   `help:"Print of links only those laid otherwise than at the last revision."`
	Labels      filled `placeholder:"SHEET" help:"The sheet of labels in mm, as its packet states them: columns x rows, width x height, left, top, gap across, gap down; for instance 3x8,70x37,0,0.5,0,0."`
	Spreadsheet filled `name:"spreadsheet" placeholder:"FILE" help:"Write the same as a spreadsheet too: a workbook for .xlsx, a file for each sheet for .csv."`
	Used        int    `placeholder:"N" help:"Labels already used up on the first sheet."`
}

// Help follows the flags in --help.
func (printCommand) Help() string {
	return "A PDF of the same name is replaced, whole or not at all; a spreadsheet of an earlier print too; any other file is left alone. The same plan, choices and date give the same bytes."
}

// Run prints and tells where it lies.
func (c *printCommand) Run(a *answer) error {
	p, err := openPlan(a, string(c.Plan))
	if err != nil {
		return err
	}
	assessment := assess.Of(p)
	choice, err := c.choice(p, report.ChoiceOf(p, today()))
	if err != nil {
		return err
	}
	path := c.path()
	if err := free(path); err != nil {
		return err
	}
	if err := report.FreeForSpreadsheet(string(c.Spreadsheet), assessment); err != nil {
		return fmt.Errorf("--spreadsheet: %w", err)
	}
	if err := report.ApartFromSpreadsheet(path, string(c.Spreadsheet), assessment); err != nil {
		return fmt.Errorf("--spreadsheet: %w", err)
	}
	interrupted, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	printed, err := report.Print(interrupted, path, assessment, choice)
	if err != nil {
		return notPrinted(err, path)
	}
	tell(&a.page, path, choice, printed)
	if c.Spreadsheet != "" {
		written, err := report.SaveSpreadsheet(interrupted, string(c.Spreadsheet), assessment)
		if err != nil {
			return err
		}
		a.line("  also %s", strings.Join(written, ", "))
	}
	c.tellStops(a, assessment.Totals.Stops)
	return nil
}

// tellStops says how to read what stops the show, where something does.
func (c *printCommand) tellStops(a *answer, stops int) {
	if stops == 0 {
		return
	}
	a.blank()
	a.line("The plan holds %s the show:", stopping(stops))
	a.blank()
	a.line("    loomsheet check %s", inShell(string(c.Plan)))
}

// path is where to print to.
func (c *printCommand) path() string {
	if c.Output != "" {
		return string(c.Output)
	}
	return strings.TrimSuffix(string(c.Plan), planfile.Extension) + ".pdf"
}

// today is the date where the user is, without a time of day: the same bytes all day.
func today() time.Time {
	year, month, day := time.Now().Date()
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}

// choice puts the flags in the place of the plan's own choice.
func (c *printCommand) choice(p *plan.Plan, choice report.Choice) (report.Choice, error) {
	if c.Paper != "" {
		sheet, known := sheets[strings.ToLower(string(c.Paper))]
		if !known {
			return choice, fmt.Errorf("--paper: %q is not known; write A4, A3 or Letter", c.Paper)
		}
		choice.Paper = sheet
	}
	if c.PlanPaper != "" {
		sheet, known := sheets[strings.ToLower(string(c.PlanPaper))]
		if !known {
			return choice, fmt.Errorf("--plan-paper: %q is not known; write A4, A3 or Letter", c.PlanPaper)
		}
		choice.PlanPaper = sheet
	}
	if c.Grey != nil {
		choice.Grey = *c.Grey
	}
	if c.Date != "" {
		date, err := time.Parse(time.DateOnly, string(c.Date))
		if err != nil {
			return choice, fmt.Errorf("--date: %q is no date; write year, month and day, for instance 2027-06-19", c.Date)
		}
		choice.Date = date
	}
	choice.Changed = c.Changed
	return c.pages(p, choice)
}

// pages puts what to print in the choice.
func (c *printCommand) pages(p *plan.Plan, choice report.Choice) (report.Choice, error) {
	for _, name := range c.Packs {
		if slug(name) == "all" {
			choice.Packs = report.Packs()
			break
		}
		choice.Packs = append(choice.Packs, report.Pack(slug(name)))
	}
	for _, name := range c.Chapters {
		choice.Chapters = append(choice.Chapters, report.Chapter(slug(name)))
	}
	var err error
	if choice.Position, err = rowNamed("--position", c.Position, p.Positions, func(r plan.Position) (string, plan.PositionID) { return r.Name, r.ID }); err != nil {
		return choice, err
	}
	if choice.Act, err = rowNamed("--act", c.Act, p.Acts, func(r plan.Act) (string, plan.ActID) { return r.Name, r.ID }); err != nil {
		return choice, err
	}
	if choice.Device, err = rowNamed("--device", c.Device, p.Devices, func(r plan.Device) (string, plan.DeviceID) { return r.Name, r.ID }); err != nil {
		return choice, err
	}
	if c.Labels == "" && c.Used == 0 {
		return choice, nil
	}
	sheet, err := report.ReadLabelSheet(string(c.Labels), choice.Paper)
	if err != nil {
		return choice, fmt.Errorf("--labels: %w", err)
	}
	sheet.Skip = c.Used
	choice.Labels = sheet
	return choice, nil
}

// rowNamed finds the row that a flag names, whatever its capitals; blank is none.
func rowNamed[R plan.Row, I ~string](flag string, wanted filled, rows *plan.Table[R], of func(R) (string, I)) (found I, err error) {
	if wanted == "" {
		return "", nil
	}
	var names []string
	for row := range rows.All() {
		name, id := of(row)
		if strings.EqualFold(name, string(wanted)) {
			return id, nil
		}
		names = append(names, name)
	}
	if len(names) == 0 {
		return "", fmt.Errorf("%s: there is no %q in the plan; it has none", flag, wanted)
	}
	return "", fmt.Errorf("%s: there is no %q in the plan; there are %s", flag, wanted, strings.Join(names, ", "))
}

var sheets = map[string]string{"a4": "A4", "a3": "A3", "letter": "Letter"}

// chapterNames lists what --chapters takes.
func chapterNames() string {
	var names []string
	for _, chapter := range report.Chapters() {
		names = append(names, string(chapter))
	}
	return strings.Join(names, ", ")
}

// packNames lists what --packs takes.
func packNames() string {
	var names []string
	for _, pack := range report.Packs() {
		names = append(names, string(pack))
	}
	return strings.Join(names, ", ")
}

// free reports whether a print may take this place: nothing is there, or an older print.
func free(path string) error {
	file, info, err := atomicfile.OpenRegular(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case errors.Is(err, atomicfile.ErrNotRegular) && info.IsDir():
		return fmt.Errorf("%s is a folder; write the name of the file too", path)
	case errors.Is(err, atomicfile.ErrNotRegular):
		return fmt.Errorf("%s is a pipe or a device; write the name of a file", path)
	case err != nil:
		return fmt.Errorf("%s is there and cannot be looked at, so it is not replaced; print to another file with -o: %w", path, err)
	}
	defer file.Close() // nothing was written
	begin := make([]byte, len(pdf))
	n, err := io.ReadFull(file, begin)
	if n > 0 && (err != nil || string(begin) != pdf) {
		return fmt.Errorf("%s is there already and is no PDF, so it is not replaced; print to another file with -o", path)
	}
	return nil
}

// pdf is what every PDF begins with (ISO 32000-1, 7.5.2).
const pdf = "%PDF-"

// notPrinted says what became of the file.
func notPrinted(err error, path string) error {
	if errors.Is(err, context.Canceled) {
		return fmt.Errorf("stopped; %s is as it was before", path)
	}
	return err
}

// tell says where the print lies, and on which page its chapters begin.
func tell(p *page, path string, choice report.Choice, printed report.Printed) {
	p.hang("", fmt.Sprintf("%s: %s, %s", path, counted(printed.Pages, "page"), choice.Paper))
	for _, entry := range printed.Entries {
		p.line("  page %s  %s", right(fmt.Sprint(entry.Page), 3), entry.Name)
	}
	for _, notice := range printed.Notices {
		p.hang("  - ", notice)
	}
}

func stopping(stops int) string {
	if stops == 1 {
		return "1 finding that stops"
	}
	return fmt.Sprintf("%d findings that stop", stops)
}
