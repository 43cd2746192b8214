package exchange

import (
	"fmt"
	"slices"
	"strings"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// uses are what stands for a type and is no word of it.
var uses = map[string]string{
	"notstated": "", // as the table says it
	"m":         patch.MicType, "directbox": patch.DIType, "directinjection": patch.DIType, "boîtededirect": patch.DIType,
	"activedi": patch.ActiveDI, "passivedi": patch.PassiveDI, "linein": patch.LineType, "linelevel": patch.LineType, "movingcoil": patch.Dynamic,
}

// readUse reads the type of an input.
func readUse(text string) (string, error) {
	if use, is := uses[plain(text)]; is {
		return use, nil
	}
	if use, is := patch.ReadType(text); is {
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
