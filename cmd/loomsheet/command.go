package main

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"github.com/alecthomas/kong"

	"stageloom/model/plan"
	"stageloom/model/planfile"
	"stageloom/model/standards"
)

// version is the program's, the same as in FyneApp.toml.
const version = "0.1.0"

// commands are what the program can be asked for.
type commands struct {
	Reckon    reckonCommand    `cmd:"" help:"Reckon a chain of cables: loss, limit, margin, grade and why."`
	Check     checkCommand     `cmd:"" help:"Check plans: links by grade, what is too short, findings and remedies."`
	Pick      pickCommand      `cmd:"" help:"Pick cables of the stock for a plan's links: what to lay, what stays unserved, what to hire in."`
	Patch     patchCommand     `cmd:"" help:"Print a plan's patch: every input with its socket and its channels, act by act."`
	LineCheck lineCheckCommand `cmd:"" name:"linecheck" help:"Print a plan's line check: its order, times and results, and the faults that are open."`
	Print     printCommand     `cmd:"" help:"Print a plan's cable schedule as a PDF."`
	House     houseCommand     `cmd:"" help:"Tell of the house's stock: who has what until when, what is missing, promised, in which case; print its sheets and labels."`
	Mend      mendCommand      `cmd:"" help:"Make a repaired copy of a plan whose rows cannot stand together."`
	Schema    schemaCommand    `cmd:"" help:"Show the keys that --json prints, as a JSON Schema."`

	Version kong.VersionFlag `help:"Show the version and exit."`
}

const description = "Stageloom without a window. Exit code 0: all is well; 1: something in a plan stops the show; " +
	"2: bad flags or a file that cannot be used."

// to answers the arguments; what it returns is a sentence for the user.
func (a *answer) to(arguments []string) error {
	var asked commands
	parser, err := kong.New(&asked,
		kong.Name("loomsheet"), kong.Description(description),
		kong.Vars{"version": versionLine(), "chapters": chapterNames(), "packs": packNames()},
		kong.WithHyphenPrefixedParameters(true), // --temp -5
		kong.ConfigureHelp(kong.HelpOptions{Compact: true, NoExpandSubcommands: true, WrapUpperBound: pageWidth}),
	)
	if err != nil {
		panic(err)
	}
	context, err := parser.Parse(arguments)
	if err != nil {
		return inWords(err)
	}
	return context.Run(a)
}

// filled is the value of a flag or an argument; blank ones are refused.
type filled string

// Decode reads the value behind a flag.
func (w *filled) Decode(context *kong.DecodeContext) error {
	token := context.Scan.Pop()
	text, is := token.Value.(string)
	if !is || strings.TrimSpace(text) == "" {
		return errors.New("its value is missing")
	}
	if err := sightly(text); err != nil {
		return err
	}
	*w = filled(text)
	return nil
}

// sightly refuses a name with signs that are not seen: it would read as another than it is.
func sightly(text string) error {
	for _, sign := range text {
		if unicode.IsControl(sign) || plan.Turns(sign) {
			return fmt.Errorf("%q holds the sign %U, which is not seen: write the name without it", plan.Clipped(text), sign)
		}
	}
	return nil
}

// list is a flag of several words with commas between, which may stand more than once; a blank one is refused.
type list []filled

// Decode reads the value behind a flag and adds it to what was read before.
func (l *list) Decode(context *kong.DecodeContext) error {
	token := context.Scan.Pop()
	text, is := token.Value.(string)
	if !is {
		return errors.New("its value is missing")
	}
	for each := range strings.SplitSeq(text, ",") {
		if strings.TrimSpace(each) == "" {
			return errors.New("its value is missing: write a name, or several with commas between")
		}
		if err := sightly(each); err != nil {
			return err
		}
		*l = append(*l, filled(each))
	}
	return nil
}

func versionLine() string {
	return fmt.Sprintf("loomsheet %s (reads plans up to version %d, reckons by edition %d of the standards)",
		version, planfile.Version, standards.Edition)
}

// inWords turns what the command line's reader says into a sentence with a remedy.
func inWords(err error) error {
	help := "loomsheet --help"
	var parse *kong.ParseError
	if errors.As(err, &parse) && parse.Context != nil && parse.Context.Selected() != nil {
		help = parse.Context.Selected().FullPath() + " --help"
	}
	said := strings.TrimSuffix(err.Error(), ".")
	return fmt.Errorf("%s; %s lists what can be written", said, help)
}
