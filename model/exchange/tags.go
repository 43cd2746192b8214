package exchange

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"stageloom/model/plan"
)

var tagRange = regexp.MustCompile(`^(.*?)(\d{1,6})\s*(?:-|–|—|\.\.+|…|\bto\b)\s*(.*?)(\d{1,6})$`)

// ReadTags reads tags: one, several parted by commas or semicolons, and ranges such as A01-A12 or A01-12, which stand for every tag
// between. With a wanted quantity of 1, and where the parts do not go together, a hyphen is a sign of the tag like any other.
func ReadTags(text string, quantity int) ([]string, error) {
	var tags []string
	seen := map[string]bool{}
	for _, part := range strings.FieldsFunc(text, func(sign rune) bool { return sign == ',' || sign == ';' || sign == '\n' }) {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		expanded, err := expand(part, quantity)
		if err != nil {
			return nil, err
		}
		for _, tag := range expanded {
			if seen[tag] {
				return nil, fmt.Errorf("tag %s stands there twice", tag)
			}
			seen[tag] = true
			tags = append(tags, tag)
		}
	}
	if len(tags) > mostOfOne {
		return nil, fmt.Errorf("%q names more than %d tags", plan.Clipped(text), mostOfOne)
	}
	return tags, nil
}

func expand(part string, quantity int) ([]string, error) {
	found := tagRange.FindStringSubmatch(part)
	if found == nil || quantity == 1 || quantity == 0 && !together(found) {
		return []string{part}, nil
	}
	if !together(found) {
		return nil, fmt.Errorf("%q does not run from one tag to another; write for instance A01-A12", plan.Clipped(part))
	}
	first, _ := strconv.Atoi(found[2]) // six digits at most
	last, _ := strconv.Atoi(found[4])
	if last-first >= mostOfOne {
		return nil, fmt.Errorf("%q names more than %d tags", plan.Clipped(part), mostOfOne)
	}
	var tags []string
	for n := first; n <= last; n++ {
		tags = append(tags, fmt.Sprintf("%s%0*d", found[1], len(found[2]), n))
	}
	return tags, nil
}

// together reports whether the two parts of a range name tags of one stem, rising.
func together(found []string) bool {
	stem, first, second, last := found[1], found[2], found[3], found[4]
	from, _ := strconv.Atoi(first)
	to, _ := strconv.Atoi(last)
	switch {
	case from >= to:
		return false
	case second == "":
		return len(first) == len(last) || first[0] != '0' && last[0] != '0'
	}
	return strings.TrimSpace(second) == strings.TrimSpace(stem)
}
