package plan

import "strings"

// Folded is a name as two are compared: without regard to case and to blanks around and between its words.
func Folded(name string) string { return strings.ToLower(strings.Join(strings.Fields(name), " ")) }
