package standards

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"stageloom/model/pairline"
	"stageloom/model/quantity"
)

// ChainGrammar explains how a chain is written, for a program's help.
const ChainGrammar = `A chain is cables joined by "+", from the near end to the far end, with a coupler at every "+":

    cat6a-own:17.6 70 + cat5e 45
    cat6:solid,unscreened 35 m + cat5e:26awg 10 ft

Each cable is KIND[:OPTION,OPTION…] LENGTH.
KIND    cat5e, cat6, cat6a, cat7, cat7a or cat8; with "-own" its first option is the maker's own figure
        for the cable as built, in dB per 100 m at 100 MHz and 20 °C (no strand factor comes on top)
OPTION  stranded (factor 1.2; 26awg 1.5, 28awg 1.95) or solid
        22awg, 23awg, 24awg, 26awg, 28awg   gauge of the conductors; 24awg unless stated
        screened (unless stated) or unscreened
        iso50    ISO 11801's whole allowance, +50 %, for stranded conductors of any gauge
        95ohm    nominal impedance; 100ohm unless stated
LENGTH  metres, or with its unit: 60, 60m, 200 ft`

// ChainCable is one cable of a chain.
type ChainCable struct {
	Construction
	Length float64 // m
}

// Chain is the cables of a link from its near end to its far end, a coupler between each two.
type Chain struct{ Cables []ChainCable }

// unlike reports whether the cables are not all of one construction.
func (c Chain) unlike() bool {
	return slices.ContainsFunc(c.Cables, func(cable ChainCable) bool { return cable.Construction != c.Cables[0].Construction })
}

// ChainError says what is wrong with which cable of a chain, and what to write instead.
type ChainError struct {
	Cable  int    // counted from 1; 0 is the chain as a whole
	Column int    // where its text begins, in letters counted from 1
	Text   string // as given, shortened
	Err    error  // what is wrong and what to write
}

// Error names place, text and remedy in one sentence.
func (e *ChainError) Error() string {
	if e.Cable == 0 {
		return fmt.Sprintf("chain: %v", e.Err)
	}
	return fmt.Sprintf("chain, cable %d at column %d, %q: %v", e.Cable, e.Column, e.Text, e.Err)
}

// Unwrap gives what is wrong.
func (e *ChainError) Unwrap() error { return e.Err }

// longestChain is the longest text in bytes that is read; the longest sensible one is a quarter of it.
const longestChain = 4096

// ParseChain reads a chain as ChainGrammar explains. It refuses bad text and figures out of range with a *ChainError.
func ParseChain(text string) (Chain, error) {
	if len(text) > longestChain {
		return Chain{}, &ChainError{Err: fmt.Errorf("the text is longer than %d letters; write at most %d cables", longestChain, pairline.MaxSegments)}
	}
	if !utf8.ValidString(text) {
		return Chain{}, &ChainError{Err: errors.New("the text is damaged (not UTF-8); type it again")}
	}
	if strings.TrimSpace(text) == "" {
		return Chain{}, &ChainError{Err: errors.New("there is no cable; write, for instance, cat6a 70 + cat5e 45")}
	}
	terms := strings.Split(text, "+")
	if len(terms) > pairline.MaxSegments {
		return Chain{}, &ChainError{Err: fmt.Errorf("it has %d cables; write at most %d", len(terms), pairline.MaxSegments)}
	}
	var chain Chain
	at := 0
	for i, term := range terms {
		cable, err := parseCable(strings.TrimSpace(term))
		if err != nil {
			leading := len(term) - len(strings.TrimLeftFunc(term, unicode.IsSpace))
			column := utf8.RuneCountInString(text[:at+leading]) + 1
			return Chain{}, &ChainError{Cable: i + 1, Column: column, Text: shorten(strings.TrimSpace(term)), Err: err}
		}
		chain.Cables = append(chain.Cables, cable)
		at += len(term) + len("+")
	}
	return chain, nil
}

func parseCable(term string) (ChainCable, error) {
	if term == "" {
		return ChainCable{}, errors.New(`there is no cable beside the "+"; write one, for instance cat5e 45`)
	}
	kind, length := term, ""
	if blank := strings.IndexFunc(term, unicode.IsSpace); blank >= 0 {
		kind, length = term[:blank], term[blank:]
	}
	built, err := ParseConstruction(kind)
	if err != nil {
		return ChainCable{}, err
	}
	if length == "" {
		return ChainCable{}, fmt.Errorf("it has no length; write, for instance, %s 45", kind)
	}
	metres, err := quantity.ReadLength(strings.TrimSpace(length), quantity.Metric)
	if err != nil {
		return ChainCable{}, err
	}
	if err := built.Segment(metres, pairline.ReferenceTemperatureC).Validate(); err != nil {
		return ChainCable{}, err
	}
	return ChainCable{Construction: built, Length: metres}, nil
}

// shorten keeps a text of any length fit for a message.
func shorten(text string) string {
	const most = 60
	letters := []rune(text)
	if len(letters) <= most {
		return text
	}
	return string(letters[:most]) + "…"
}

// Line joins the cables at one cable temperature in °C, a coupler of the given hardware between each two: two
// connections, each the poorer of plug and coupler. The plugs at the two ends are not counted.
func (c Chain) Line(temperatureC float64, coupler Hardware) (pairline.Line, error) {
	var line pairline.Line
	var lastPlug pairline.Interface
	for i, cable := range c.Cables {
		plug, err := cable.PlugFigures()
		if err != nil {
			return pairline.Line{}, fmt.Errorf("cable %d: %w", i+1, err)
		}
		if i > 0 {
			joint := pairline.Coupler(lastPlug, coupler.Figures, plug)
			line.Parts = append(line.Parts, joint[0], joint[1])
		}
		line.Parts = append(line.Parts, cable.Segment(cable.Length, temperatureC))
		lastPlug = plug
	}
	return line, nil
}
