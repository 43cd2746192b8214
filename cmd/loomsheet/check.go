package main

import (
	"fmt"
	"strings"

	"stageloom/model/assess"
	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/standards"
)

// checkCommand checks plan files.
type checkCommand struct {
	Plans []filled `arg:"" name:"plan" help:"Plan files, whose names end in .stageloom."`

	Links bool `help:"List every link with its run, cable, loss, margin and grade."`
	JSON  bool `name:"json" help:"Print for other programs; \"loomsheet schema check\" tells the keys."`
}

// Help follows the flags in --help.
func (checkCommand) Help() string {
	return "Exits with 0 when nothing stops the show, 1 when something does, and 2 when a file cannot be used. Of several plans the worst counts."
}

// checked is one plan file, or why it cannot be used.
type checked struct {
	path       string
	assessment *assess.Assessment
	err        error
}

// Run checks the plans one after the other; one that cannot be used does not keep the others from being checked.
func (c *checkCommand) Run(a *answer) error {
	var all []checked
	for _, name := range c.Plans {
		path := string(name)
		one := checked{path: path}
		p, err := openPlan(a, path)
		if err != nil {
			one.err = err
			a.complain(err)
		} else {
			one.assessment = assess.Of(p)
			if one.assessment.Totals.Stops > 0 {
				a.worsen(stopped)
			}
		}
		all = append(all, one)
	}
	if c.JSON {
		return a.json(checkKeysOf(all))
	}
	for _, one := range all {
		if one.err != nil {
			continue
		}
		if a.b.Len() > 0 {
			a.blank()
		}
		one.print(&a.page, c.Links)
	}
	return nil
}

// openPlan reads a plan file; its error names the file as the user did and says what to do. What was taken out of its texts
// is told beside the answer.
func openPlan(a *answer, path string) (*plan.Plan, error) {
	p, _, mends, err := planfile.OpenMended(path)
	if err == nil {
		if said := planfile.TakenOut(mends); said != "" {
			a.remark(path + ": " + said + ".")
		}
		return p, nil
	}
	err = named(err, path)
	if repairable(err) {
		return nil, fmt.Errorf("%w To make the copy: loomsheet mend %s -o COPY%s", err, inShell(path), planfile.Extension)
	}
	return nil, err
}

// editionRemark says that a plan was graded by another edition of the standards, or nothing.
func editionRemark(p *plan.Plan) string {
	if p.Settings.Standards == standards.Edition {
		return ""
	}
	remark := fmt.Sprintf("The plan was made with edition %d of the standards and is reckoned here with edition %d: grades may differ.",
		p.Settings.Standards, standards.Edition)
	return strings.Join(append([]string{remark}, standards.ChangesSince(p.Settings.Standards)...), " ")
}
