package patch

import (
	"slices"
	"strings"
	"unicode"
)

// SourceTold is what the words of a source tell: its type, and whether it wants 48 V where PhantomTold.
type SourceTold struct {
	Use                  string
	Phantom, PhantomTold bool
}

// condenserWords are those for microphones that want 48 V.
const condenserWords = "condenser capacitor kondensator kondensatormikrofon kondenser statique condensateur électrostatique electret elektret électret"

// typeWords are generic words for the types themselves, in English, German and French.
var typeWords = spread(map[string]SourceTold{
	"mic mike microphone mikro mikrofon micro": {Use: MicType},

	condenserWords: {Condenser, true, true},

	"dynamic dynamisch dynamisches dynamique tauchspule": {Dynamic, false, true},
	"ribbon bändchen baendchen bändchenmikrofon ruban":   {Ribbon, false, true},
	"di dibox":   {Use: DIType},
	"line ligne": {LineType, false, true},
})

// sourceWords are what generic words of the trade say. Common practice, no source; boundary microphones are mostly condensers.
var sourceWords = spread(map[string]SourceTold{
	"boundary grenzfläche":                              {MicType, true, true},
	"shotgun richtrohr":                                 {Condenser, true, true},
	"laptop computer playback zuspieler":                {LineType, false, true},
	"keyboard keyboards synth synthesizer synthétiseur": {LineType, false, true},
	radioWords: {LineType, false, true},
})

// radioWords tell that a source comes by radio, and so from the output of its receiver, whatever microphone is in the hand.
const radioWords = "radio funk funkstrecke wireless receiver empfänger récepteur"

var (
	isRadio      = strings.Fields(radioWords)
	activeWords  = strings.Fields("active aktiv aktive actif")
	passiveWords = strings.Fields("passive passiv passif")
)

// spread gives each of several words what is told of them.
func spread(rows map[string]SourceTold) map[string]SourceTold {
	all := map[string]SourceTold{}
	for words, told := range rows {
		for word := range strings.FieldsSeq(words) {
			all[word] = told
		}
	}
	return all
}

// ReadSource reads the words of a source; known is false where no word tells, or two tell otherwise.
func ReadSource(source string) (told SourceTold, known bool) {
	all := strings.FieldsFunc(strings.ToLower(source), func(sign rune) bool { return !unicode.IsLetter(sign) })
	if anyOf(all, isRadio) {
		return sourceWords[isRadio[0]], true
	}
	for _, word := range all {
		said, is := sourceWords[word]
		if !is {
			said, is = typeWords[word]
		}
		if said.Use == DIType {
			said = readDI(all)
		}
		switch {
		case !is:
		case !known:
			told, known = said, true
		default:
			if told, known = bothSay(told, said); !known {
				return SourceTold{}, false
			}
		}
	}
	return told, known
}

// ReadType reads a type that is written in words: each of them is one of a type.
func ReadType(text string) (use string, is bool) {
	for _, word := range strings.FieldsFunc(strings.ToLower(text), func(sign rune) bool { return !unicode.IsLetter(sign) }) {
		if _, known := typeWords[word]; !known && word != "box" && !slices.Contains(activeWords, word) && !slices.Contains(passiveWords, word) {
			return "", false
		}
	}
	told, known := ReadSource(text)
	return told.Use, known
}

func anyOf(all, words []string) bool {
	return slices.ContainsFunc(all, func(word string) bool { return slices.Contains(words, word) })
}

func readDI(all []string) SourceTold {
	switch {
	case anyOf(all, activeWords):
		return SourceTold{ActiveDI, true, true}
	case anyOf(all, passiveWords):
		return SourceTold{PassiveDI, false, true}
	}
	return SourceTold{Use: DIType}
}

// bothSay is what two words tell together: the narrower of two of one family, and a DI box before what is plugged into it.
func bothSay(a, b SourceTold) (told SourceTold, agree bool) {
	one, other := FamilyOf(a.Use), FamilyOf(b.Use)
	switch {
	case one == DIType && other == LineType:
		return a, true
	case one == LineType && other == DIType, one == other && a == SourceTold{Use: one}:
		return b, true
	case one != other || a.PhantomTold && b.PhantomTold && a.Phantom != b.Phantom:
		return SourceTold{}, false
	case a.Use == one && b.Use != one:
		return b, true
	}
	return a, a.Use == b.Use || b.Use == one
}

// FamilyOf is the type that says no more than how an input is plugged, mic, DI or line; blank where nobody told.
func FamilyOf(use string) string {
	switch use {
	case Condenser, Dynamic, Ribbon:
		return MicType
	case ActiveDI, PassiveDI:
		return DIType
	}
	return use
}
