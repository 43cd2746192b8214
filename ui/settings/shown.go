package settings

import (
	"slices"
	"strings"
)

// Parts of the plan that can be hidden. Links are hidden by grade or transport: HiddenGrade("over"), HiddenTransport("aes50").
const (
	PartLabels   = "labels"
	PartNames    = "names"
	PartOutlines = "outlines"
	PartAreas    = "areas"
	PartLooms    = "looms"
)

const (
	keyHidden       = "hidden parts"
	gradePrefix     = "grade "
	transportPrefix = "transport "
)

// HiddenGrade is the part of the links of a grade, blank for those without one.
func HiddenGrade(grade string) string { return gradePrefix + grade }

// HiddenTransport is the part of the links of a transport.
func HiddenTransport(transport string) string { return transportPrefix + transport }

// Grade is the grade that a part hides, and whether it is one of links of a grade.
func Grade(part string) (string, bool) { return strings.CutPrefix(part, gradePrefix) }

// Transport is the transport that a part hides, and whether it is one of links of a transport.
func Transport(part string) (string, bool) { return strings.CutPrefix(part, transportPrefix) }

// Hidden lists the parts that are hidden.
func (s *Settings) Hidden() []string { return s.kept.StringList(keyHidden) }

// SetHidden hides a part, or shows it again.
func (s *Settings) SetHidden(part string, hidden bool) {
	parts := slices.DeleteFunc(slices.Clone(s.Hidden()), func(other string) bool { return other == part })
	if hidden {
		parts = append(parts, part)
	}
	s.kept.SetStringList(keyHidden, parts)
}

// ShowAll hides nothing any more.
func (s *Settings) ShowAll() { s.kept.SetStringList(keyHidden, nil) }
