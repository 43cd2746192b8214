package exchange

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"stageloom/model/patch"
	"stageloom/model/plan"
)

// InputFieldsOf are what a column of an input list can mean in a plan: beside [InputFields] a channel of each of its consoles.
// A head that names a console, or the beginning of one, with or without the word channel, means it: "FOH ch", "Mon". Where
// the plan has one console, "Channel" beside a column of numbers does.
func InputFieldsOf(view *patch.View) []Field {
	fields := InputFields()
	consoles := view.Consoles()
	for _, id := range consoles {
		name := channelOf(view, id)
		if slices.ContainsFunc(fields, func(f Field) bool { return f.Name == name }) {
			continue // two consoles of one name: a finding says so
		}
		fields = append(fields, Field{Name: name, looks: isChannel, heads: func(head string) int { return channelHead(view, consoles, id, head) }})
	}
	return fields
}

// channelOf names the field of the channels of a console.
func channelOf(view *patch.View, console plan.DeviceID) string {
	return view.Name(console) + " channel"
}

var (
	channelWords = strings.Fields("ch chan channel channels kanal voie")
	consoleWords = strings.Fields("console desk mixer pult mischpult input in no nr")
)

// leastStem is how much of a console's name a head must bear.
const leastStem = 3

// channelHead gives points to a head that means the channels of a console.
func channelHead(view *patch.View, consoles []plan.DeviceID, console plan.DeviceID, head string) int {
	words, isChannel := strings.Fields(head), false
	words = slices.DeleteFunc(words, func(word string) bool {
		of := slices.Contains(channelWords, word)
		isChannel = isChannel || of
		return of
	})
	stem := specific(words)
	if stem == "" {
		if isChannel && len(consoles) == 1 {
			return wholeWord / 2 // the number of the input comes first
		}
		return 0
	}
	var meant []plan.DeviceID
	for _, id := range consoles {
		if namedBy(plainHead(view.Name(id)), stem) {
			meant = append(meant, id)
		}
	}
	if len(meant) == 1 && meant[0] == console {
		return wholeWord
	}
	return 0
}

// specific is what words say beside that it is a console.
func specific(words []string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(words), func(word string) bool { return slices.Contains(consoleWords, word) }), " ")
}

// namedBy reports whether a name, from one of its words on, begins with a stem, or is it where the stem is short.
func namedBy(name, stem string) bool {
	words := strings.Fields(specific(strings.Fields(name)))
	for i := range words {
		rest := strings.Join(words[i:], " ")
		if rest == stem || utf8.RuneCountInString(stem) >= leastStem && strings.HasPrefix(rest, stem) {
			return true
		}
	}
	return false
}

// saysNone reports whether a cell says that there is no socket or channel.
func saysNone(text string) bool {
	return text == "" || slices.Contains(strings.Fields("- – — / 0 n/a none"), strings.ToLower(text))
}

var errChannel = errors.New("write the number of one channel, for instance 12")

// readChannel reads "12", "Ch 12" or "ch12".
func readChannel(text string) (int, error) {
	bare := strings.ToLower(text)
	for _, word := range channelWords {
		if rest, found := strings.CutPrefix(bare, word); found && strings.TrimLeft(rest, " .#") != rest || found && rest != "" && rest[0] <= '9' {
			bare = strings.TrimLeft(rest, " .#")
			break
		}
	}
	number, err := readCount(bare, 1, mostChannel)
	if err != nil {
		return 0, fmt.Errorf("%q is no channel: %w", plan.Clipped(text), errChannel)
	}
	return number, nil
}

// errHalf says that a pair of inputs is given one place.
var errHalf = errors.New("it names one place for two inputs, and the left one has it: write both, for instance 5-6")

// readChannelOf reads a channel, unless it is the only one that a pair has.
func readChannelOf(text string, alone bool) (int, error) {
	if alone {
		return 0, errHalf
	}
	return readChannel(text)
}

// mostChannel is the highest channel that a plan holds.
const mostChannel = 1024

func isChannel(text string) bool {
	if _, is, err := readPair(text); saysNone(text) || is && err == nil {
		return true
	}
	_, err := readChannel(text)
	return err == nil
}

// noSocket tells that a cell can't name a socket: it has no number and does not say that there is none.
func noSocket(text string) bool { return !strings.ContainsAny(text, "0123456789") && !saysNone(text) }
