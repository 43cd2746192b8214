package exchange

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"stageloom/model/plan"
)

// wants is what a word of a source says: how it is plugged, and whether it wants 48 V where the word tells that.
type wants struct {
	use     string
	phantom powered
}

// powered is whether a source wants 48 V, as far as its word tells.
type powered int

const (
	untold powered = iota
	without
	with48V
)

// sourceWords are what generic words of the trade say. Common practice, no source: condensers, boundary microphones and
// active DI boxes are fed with 48 V; dynamic and ribbon microphones and line outputs are not; a DI box may be either.
var sourceWords = map[string]wants{
	"mic": {"mic", untold}, "microphone": {"mic", untold}, "mikro": {"mic", untold}, "mikrofon": {"mic", untold}, "micro": {"mic", untold},
	"condenser": {"mic", with48V}, "kondensator": {"mic", with48V}, "statique": {"mic", with48V},
	"boundary": {"mic", with48V}, "grenzfläche": {"mic", with48V},
	"dynamic": {"mic", without}, "dynamisch": {"mic", without}, "dynamique": {"mic", without},
	"ribbon": {"mic", without}, "bändchen": {"mic", without}, "ruban": {"mic", without},
	"di": {"DI", untold}, activeDI: {"DI", with48V}, passiveDI: {"DI", without},
	"line": {"line", without}, "ligne": {"line", without}, "radio": {"line", without}, "funk": {"line", without}, "wireless": {"line", without},
	"laptop": {"line", without}, "playback": {"line", without}, "zuspieler": {"line", without},
}

const activeDI, passiveDI = "active di", "passive di"

var (
	activeWords  = strings.Fields("active aktiv aktive active")
	passiveWords = strings.Fields("passive passiv passif")
)

// wanted reads the words of a source; known is false where no word tells, or two tell otherwise.
func wanted(source string) (w wants, known bool) {
	words := strings.FieldsFunc(strings.ToLower(source), func(sign rune) bool { return !unicode.IsLetter(sign) })
	for _, word := range words {
		if word == "di" {
			switch {
			case slices.ContainsFunc(words, func(other string) bool { return slices.Contains(activeWords, other) }):
				word = activeDI
			case slices.ContainsFunc(words, func(other string) bool { return slices.Contains(passiveWords, other) }):
				word = passiveDI
			}
		}
		said, is := sourceWords[word]
		switch {
		case !is:
		case !known:
			w, known = said, true
		case w.use != said.use:
			return wants{}, false
		case w.phantom == untold:
			w.phantom = said.phantom
		case said.phantom != untold && said.phantom != w.phantom:
			return wants{}, false
		}
	}
	return w, known
}

var uses = map[string]string{
	"notstated": "", // as the table says it
	"mic":       "mic", "mike": "mic", "microphone": "mic", "mikro": "mic", "mikrofon": "mic", "micro": "mic", "m": "mic",
	"di": "DI", "dibox": "DI", "activedi": "DI", "passivedi": "DI",
	"line": "line", "ligne": "line", "linein": "line", "linelevel": "line",
}

// readUse reads how an input is plugged.
func readUse(text string) (string, error) {
	if use, is := uses[plain(text)]; is {
		return use, nil
	}
	return "", fmt.Errorf("%q is no type; write mic, DI or line", plan.Clipped(text))
}

func isUse(text string) bool {
	_, err := readUse(text)
	return err == nil
}

// infer fills in how an input is plugged and whether it wants 48 V from the words of its source, where no cell says so.
func (r *inputReader) infer(row *InputRow) {
	in := &row.Input
	if in.Source == "" {
		return
	}
	w, known := wanted(in.Source)
	asksPhantom := r.layout.column(Phantom) < 0
	if !known {
		if in.Use == "" {
			r.unknown = appendOnce(r.unknown, plan.Clipped(in.Source))
		}
		return
	}
	if in.Use == "" {
		in.Use, row.UseRead = w.use, true
	}
	if asksPhantom && w.phantom != untold {
		in.Phantom, row.PhantomRead = w.phantom == with48V, true
	}
	if row.UseRead || row.PhantomRead {
		words := fmt.Sprintf("%q", plan.Clipped(in.Source))
		if row.UseRead {
			words += " is " + in.Use
		} else {
			words += " is as the list says"
		}
		if row.PhantomRead && in.Phantom {
			words += " with 48 V"
		}
		r.read = appendOnce(r.read, words)
	}
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
