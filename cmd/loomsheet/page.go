package main

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// pageWidth is that of the terminal the text is laid out for.
const pageWidth = 80

// page gathers lines of text.
type page struct{ b strings.Builder }

func (p *page) text() string { return p.b.String() }

// line adds one line, without blanks at its end.
func (p *page) line(format string, values ...any) {
	p.b.WriteString(strings.TrimRight(fmt.Sprintf(format, values...), " "))
	p.b.WriteByte('\n')
}

// blank adds an empty line.
func (p *page) blank() { p.b.WriteByte('\n') }

// hang adds a text broken to the page's width, its first line behind lead and all others under the first one's text.
func (p *page) hang(lead, text string) {
	indent := strings.Repeat(" ", width(lead))
	for i, line := range wrap(text, pageWidth-width(lead)) {
		if i > 0 {
			lead = indent
		}
		p.line("%s%s", lead, line)
	}
}

// width is how many columns a text takes.
func width(text string) int { return utf8.RuneCountInString(text) }

// left and right fill a text with blanks to a number of columns, on the side away from the name.
func left(text string, columns int) string  { return text + filling(text, columns) }
func right(text string, columns int) string { return filling(text, columns) + text }

func filling(text string, columns int) string {
	return strings.Repeat(" ", max(0, columns-width(text)))
}

// wrap breaks a text into lines of at most so many columns: at blanks, never between a figure and its unit, and within a
// word only where it is longer than a line. It returns at least one line.
func wrap(text string, columns int) []string {
	lines := []string{""}
	for _, word := range apart(text) {
		last := &lines[len(lines)-1]
		switch {
		case *last == "":
			*last = word
		case width(*last)+1+width(word) <= columns:
			*last += " " + word
		default:
			lines = append(lines, word)
		}
		for last = &lines[len(lines)-1]; width(*last) > columns; last = &lines[len(lines)-1] {
			letters := []rune(*last)
			*last = string(letters[:columns])
			lines = append(lines, string(letters[columns:]))
		}
	}
	return lines
}

var (
	bareNumber = regexp.MustCompile(`^[(+−]?[0-9][0-9.–−]*$`)
	bareUnit   = regexp.MustCompile(`^(m|kg|dB|dB/100|MHz|ns|°C|%|Ω|V|W|A|AWG)[).,;:]*$`)
)

// apart splits a text at its blanks and leaves figures with their units.
func apart(text string) []string {
	var found []string
	for _, word := range strings.Fields(text) {
		if last := len(found) - 1; last >= 0 && bareUnit.MatchString(word) && bareNumber.MatchString(found[last]) {
			found[last] += " " + word
			continue
		}
		found = append(found, word)
	}
	return found
}

// printable replaces what could steer a terminal, or turn the order of letters, by a sign: names come from files.
func printable(text string) string {
	return strings.Map(func(letter rune) rune {
		if letter == '\n' || !unicode.IsControl(letter) && !unicode.Is(unicode.Bidi_Control, letter) {
			return letter
		}
		return unicode.ReplacementChar
	}, text)
}

var quotedOrMinus = regexp.MustCompile(`"[^"]*"|(?:^|[ (:])-[0-9]`)

// trueMinus writes the sign of negative figures as a minus and leaves alone what is quoted.
func trueMinus(text string) string {
	return quotedOrMinus.ReplaceAllStringFunc(text, func(found string) string {
		if strings.HasPrefix(found, `"`) {
			return found
		}
		return strings.Replace(found, "-", "−", 1)
	})
}
