package exchange

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

var uses = map[string]string{
	"notstated": "", // as the table says it
	"mic":       "mic", "mike": "mic", "microphone": "mic", "mikro": "mic", "mikrofon": "mic", "micro": "mic", "m": "mic",
	"di": "DI", "dibox": "DI",
	"condenser": patch.Condenser, "kondensator": patch.Condenser, "kondensatormikrofon": patch.Condenser, "statique": patch.Condenser,
	"dynamic": patch.Dynamic, "dynamisch": patch.Dynamic, "dynamique": patch.Dynamic,
	"ribbon": patch.Ribbon, "bändchen": patch.Ribbon, "bändchenmikrofon": patch.Ribbon, "ruban": patch.Ribbon,
	"activedi": patch.ActiveDI, "diactive": patch.ActiveDI, "aktivedi": patch.ActiveDI, "diaktiv": patch.ActiveDI,
	"passivedi": patch.PassiveDI, "dipassive": patch.PassiveDI, "dipassiv": patch.PassiveDI,
	"line": "line", "ligne": "line", "linein": "line", "linelevel": "line",
}

// readUse reads how an input is plugged.
func readUse(text string) (string, error) {
	if use, is := uses[plain(text)]; is {
		return use, nil
	}
	return "", fmt.Errorf("%q is no type; write mic, condenser, dynamic, ribbon, DI, active DI, passive DI or line", plan.Clipped(text))
}

func isUse(text string) bool {
	_, err := readUse(text)
	return err == nil
}

// infer fills in what an input is and whether it wants 48 V from the words of its source, where no cell says so; a type that is
// told wants 48 V or not as it is.
func (r *inputReader) infer(row *InputRow) {
	in := &row.Input
	told, known := patch.ReadSource(in.Source)
	if in.Source != "" && !known && in.Use == "" {
		r.unknown = appendOnce(r.unknown, plan.Clipped(in.Source))
	}
	if known && in.Use == "" {
		in.Use, row.UseRead = told.Use, true
	}
	asked := r.layout.column(Phantom) < 0
	bearing, words := patch.BearingOf(plan.Input{Use: in.Use}), in.Source
	switch {
	case !asked:
	case !row.UseRead && bearing != patch.Untold:
		in.Phantom, row.PhantomRead, words = bearing == patch.Needs, true, patch.UseWords(in.Use)
	case known && told.PhantomTold:
		in.Phantom, row.PhantomRead = told.Phantom, true
	}
	if row.UseRead || row.PhantomRead {
		r.read = appendOnce(r.read, readWords(row, words))
	}
}

// readWords tell what was read from words of a row.
func readWords(row *InputRow, from string) string {
	words := fmt.Sprintf("%q", plan.Clipped(from))
	if row.UseRead {
		words += " is " + patch.UseWords(row.Input.Use)
	} else {
		words += " is as the list says"
	}
	if row.PhantomRead && row.Input.Phantom {
		words += " with 48 V"
	}
	return words
}

// appendOnce gathers different words, no more than tell that there are too many to quote.
func appendOnce(all []string, one string) []string {
	if len(all) > mostQuoted || slices.Contains(all, one) {
		return all
	}
	return append(all, one)
}

// mostQuoted is how many words a sentence quotes.
const mostQuoted = 12

func quoted(words []string) string {
	if len(words) > mostQuoted {
		words = append(slices.Clone(words[:mostQuoted]), "…")
	}
	return strings.Join(words, ", ")
}
