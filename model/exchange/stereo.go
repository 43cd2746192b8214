package exchange

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"stageloom/model/plan"
)

// The halves of a stereo pair that one row of a list names.
const (
	left  = 1
	right = 2
)

var (
	pairNumber = regexp.MustCompile(`^(\d{1,4})\s*[-–/+&,]\s*(\d{1,4})$`)
	// pairName finds what tells behind a name that it is two: "L/R", "L+R", "(L-R)", "LR", "stereo".
	pairName = regexp.MustCompile(`^(.*\S)[\s,(\[–-]+(?:[lL]\s?[/+&-]\s?[rR]|LR|(?i:stereo))[)\]]?$`)
	// pairPlace is a place with two numbers behind it: "5-6", "Box A 5/6".
	pairPlace = regexp.MustCompile(`^(|.*[\s#])(\d{1,4})\s*[-–/+&]\s*(\d{1,4})$`)
)

// readPair reads "9-10", "9/10" or "9+10" as two numbers that follow each other.
func readPair(text string) (first int, is bool, err error) {
	found := pairNumber.FindStringSubmatch(text)
	if found == nil {
		return 0, false, nil
	}
	first, _ = strconv.Atoi(found[1]) // four digits at most
	second, _ := strconv.Atoi(found[2])
	switch {
	case second != first+1:
		return 0, true, fmt.Errorf("%q is no pair of numbers that follow each other: write a row for each input", plan.Clipped(text))
	case first < 1 || second > mostInput:
		return 0, true, fmt.Errorf("%q must lie between 1 and %d", plan.Clipped(text), mostInput)
	}
	return first, true, nil
}

func isInputNumber(text string) bool {
	_, is, _ := readPair(text)
	return is || isCount(text)
}

// pairedName is the name of one of a pair: "Keys L/R" is Keys L or Keys R.
func pairedName(name string, half int) string {
	if found := pairName.FindStringSubmatch(name); found != nil {
		name = found[1]
	}
	return name + [...]string{"", " L", " R"}[half]
}

// halfOf is what a cell says of one of a pair: "Box A 5-6" is Box A 5 for the left and Box A 6 for the right. A cell that
// names one place is the left one's; alone tells that.
func halfOf(text string, half int) (own string, alone bool) {
	if half == 0 || saysNone(text) {
		return text, false
	}
	found := pairPlace.FindStringSubmatch(text)
	if found != nil {
		first, _ := strconv.Atoi(found[2]) // four digits at most
		second, _ := strconv.Atoi(found[3])
		if second == first+1 {
			return strings.TrimLeft(found[1]+strconv.Itoa(first+half-1), " "), false
		}
	}
	if half == right {
		return "", true
	}
	return text, false
}
