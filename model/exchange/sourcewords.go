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

// sourceWords are what generic words of the trade say of a source. Common practice, no source: condensers, boundary
// microphones and active DI boxes are fed with 48 V; dynamic and ribbon microphones and line outputs are not; a DI box may be
// either.
var sourceWords = map[string]wants{
	"boundary": {mic, with48V}, "grenzfläche": {mic, with48V},
	"radio": {"line", without}, "funk": {"line", without}, "wireless": {"line", without},
	"laptop": {"line", without}, "playback": {"line", without}, "zuspieler": {"line", without},
}

// typeWords are generic words for the types themselves.
var typeWords = map[string]wants{
	mic: {mic, untold}, "mike": {mic, untold}, "microphone": {mic, untold}, "mikro": {mic, untold}, "mikrofon": {mic, untold}, "micro": {mic, untold},
	"condenser": condensers, "capacitor": condensers, "electret": condensers, "kondensator": condensers, "kondensatormikrofon": condensers, "kondenser": condensers, "elektret": condensers,
	"statique": condensers, "condensateur": condensers, "électret": condensers, "électrostatique": condensers,
	"dynamic": dynamics, "dynamisch": dynamics, "dynamisches": dynamics, "dynamique": dynamics, "tauchspule": dynamics,
	"ribbon": ribbons, "bändchen": ribbons, "bändchenmikrofon": ribbons, "baendchen": ribbons, "ruban": ribbons,
	di: {di, untold}, "dibox": {di, untold}, activeDI: {activeDI, with48V}, passiveDI: {passiveDI, without},
	"line": {"line", without}, "ligne": {"line", without},
}

// Types that lists name; mic and DI are those whose sort nobody told.
const mic, di, activeDI, passiveDI = "mic", "DI", "active_DI", "passive_DI"

var condensers, dynamics, ribbons = wants{"condenser", with48V}, wants{"dynamic", without}, wants{"ribbon", without}

// sorts are the types that tell more than another.
var sorts = map[string][]string{mic: {"condenser", "dynamic", "ribbon"}, di: {activeDI, passiveDI}}

var (
	activeWords  = strings.Fields("active aktiv aktive active actif")
	passiveWords = strings.Fields("passive passiv passif")
)

// lettersOf are the words of a text in small letters; DI is written with its capitals, and said to be active or passive where
// a word beside it does.
func lettersOf(text string) []string {
	words := strings.FieldsFunc(strings.ToLower(text), func(sign rune) bool { return !unicode.IsLetter(sign) })
	has := func(any []string) bool {
		return slices.ContainsFunc(words, func(word string) bool { return slices.Contains(any, word) })
	}
	active, passive := has(activeWords), has(passiveWords)
	for i, word := range words {
		switch {
		case word != "di" && word != "dibox":
		case active && !passive:
			words[i] = activeDI
		case passive && !active:
			words[i] = passiveDI
		default:
			words[i] = di
		}
	}
	return words
}

// wanted reads the words of a source; known is false where no word tells, or two tell otherwise.
func wanted(source string) (w wants, known bool) {
	for _, word := range lettersOf(source) {
		said, is := typeWords[word]
		if !is {
			said, is = sourceWords[word]
		}
		switch {
		case !is:
		case !known:
			w, known = said, true
		case !w.and(said):
			return wants{}, false
		}
	}
	return w, known
}

// and adds what another word says; it reports whether the two go together.
func (w *wants) and(said wants) bool {
	switch {
	case w.use == said.use || slices.Contains(sorts[said.use], w.use):
	case slices.Contains(sorts[w.use], said.use):
		w.use = said.use
	default:
		return false
	}
	if w.phantom == untold {
		w.phantom = said.phantom
	}
	return said.phantom == untold || said.phantom == w.phantom
}

var uses = map[string]string{
	"notstated": "", // as the table says it
	"m":         mic, "directbox": di, "directinjection": di, "linein": "line", "linelevel": "line", "movingcoil": "dynamic", "boîtededirect": di,
	"activedi": activeDI, "passivedi": passiveDI,
}

// readUse reads the type of an input: every word of it is one of a type.
func readUse(text string) (string, error) {
	if use, is := uses[plain(text)]; is {
		return use, nil
	}
	beside := func(word string) bool {
		_, is := typeWords[word]
		return is || slices.Contains(activeWords, word) || slices.Contains(passiveWords, word) || word == "box"
	}
	words := lettersOf(text)
	if w, known := wanted(text); known && !slices.ContainsFunc(words, func(word string) bool { return !beside(word) }) {
		return w.use, nil
	}
	return "", fmt.Errorf("%q is no type; write condenser, dynamic, ribbon, mic, active DI, passive DI, DI or line", plan.Clipped(text))
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
			words += " is " + useWords(in.Use)
		} else {
			words += " is as the list says"
		}
		if row.PhantomRead && in.Phantom {
			words += " with 48 V"
		}
		r.read = appendOnce(r.read, words)
	}
}

// useWords is a type as the table says it.
func useWords(use string) string { return strings.ReplaceAll(use, "_", " ") }

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
