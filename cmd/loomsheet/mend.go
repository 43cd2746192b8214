package main

import (
	"bytes"
	"errors"
	"fmt"
	"strings"

	"stageloom/model/atomicfile"
	"stageloom/model/planfile"
)

// mendCommand makes a repaired copy of a plan.
type mendCommand struct {
	Plan filled `arg:"" help:"The plan file to correct; it stays as it is."`
	Copy filled `short:"o" name:"output" required:"" placeholder:"COPY" help:"The repaired copy; a file of this name must not be there."`
}

// Help follows the flags in --help.
func (mendCommand) Help() string {
	return "For a plan whose rows are sound but cannot stand together, such as a link to a device that is gone. What cannot stand is left out " +
		"of the copy and listed; nothing is guessed, and no file is ever written over."
}

// Run mends the plan into the copy.
func (c *mendCommand) Run(a *answer) error {
	path, beside := string(c.Plan), string(c.Copy)
	if _, _, turned, err := planfile.OpenMended(path); err == nil && len(turned) == 0 {
		a.hang("", fmt.Sprintf("%s is sound: there is nothing to mend, and no copy was made.", path))
		return nil
	} else if err != nil && !repairable(err) {
		return named(err, path)
	}
	data, err := atomicfile.ReadRegular(path)
	if err != nil {
		return err
	}
	mended, mends, err := planfile.Repair(bytes.NewReader(data))
	if err != nil {
		return named(err, path)
	}
	if _, err := planfile.Save(beside, copyOf(mended), planfile.Stamp{}, nil); err != nil {
		var there *planfile.Overwrite
		if errors.As(err, &there) {
			return fmt.Errorf("%s is there already, and mend writes over no file; choose another name for the copy", beside)
		}
		return err
	}
	a.hang("", fmt.Sprintf("%s: %s mended in the copy %s", path, counted(len(mends), "fault"), beside))
	a.blank()
	for _, mend := range mends {
		a.hang("  - ", mend.String())
	}
	a.blank()
	a.hang("", path+" is as it was. Look through the list, put right what is missing, and check the copy:")
	a.blank()
	a.line("    loomsheet check %s", inShell(beside))
	return nil
}

func repairable(err error) bool {
	var unreadable *planfile.Unreadable
	return errors.As(err, &unreadable) && unreadable.Repairable
}

// named gives the error of a file the name that the user gave it.
func named(err error, path string) error {
	var unreadable *planfile.Unreadable
	if errors.As(err, &unreadable) {
		unreadable.Name = path
	}
	return err
}

// inShell writes a name so that a shell takes it as one word.
func inShell(name string) string {
	if name != "" && !strings.ContainsAny(name, " \t\"'`$&|;<>()*?[]{}\\!#~") {
		return name
	}
	return "'" + strings.ReplaceAll(name, "'", `'\''`) + "'"
}
