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

// sourceWords are what generic words of the trade say. Common practice, no source; boundary microphones are mostly condensers.
var sourceWords = spread(map[string]SourceTold{
	"mic microphone mikro mikrofon micro": {Use: MicType},
	"boundary grenzfläche":                {MicType, true, true},
	"condenser kondensator kondensatormikrofon statique electret elektret électret shotgun richtrohr": {Condenser, true, true},
	"dynamic dynamisch dynamique":            {Dynamic, false, true},
	"ribbon bändchen bändchenmikrofon ruban": {Ribbon, false, true},
	"di": {Use: DIType},
	"line ligne laptop computer playback zuspieler":     {LineType, false, true},
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
		if word == "di" {
			said = readDI(all)
		}
		switch {
		case !is:
		case !known:
			told, known = said, true
		default:
			if told, known = joined(told, said); !known {
				return SourceTold{}, false
			}
		}
	}
	return told, known
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

// joined is what two words tell together: the narrower of two of one family, and a DI box before what is plugged into it.
func joined(a, b SourceTold) (told SourceTold, agree bool) {
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
