package main

import "strings"

// asWritten keeps a text's own lines in --help, which would run them together unless they are indented, and breaks those
// that are longer than the page under their second column.
func asWritten(text string) string {
	const indent = "    "
	var lines []string
	for _, line := range joinLong(strings.Split(text, "\n"), pageWidth-2*len(indent)) {
		lead := secondColumn(line)
		for i, part := range wrapKeeping(line, lead, pageWidth-2*len(indent)) {
			if i > 0 {
				part = strings.Repeat(" ", lead) + part
			}
			lines = append(lines, strings.TrimRight(indent+part, " "))
		}
	}
	return strings.Join(lines, "\n")
}

// secondColumn is where a line's text goes on behind a name and two blanks or more, or where it begins.
func secondColumn(line string) int {
	start := len(line) - len(strings.TrimLeft(line, " "))
	gap := strings.Index(line[start:], "  ")
	if gap < 0 {
		return start
	}
	rest := strings.TrimLeft(line[start+gap:], " ")
	return len(line) - len(rest)
}

// wrapKeeping breaks a line's text from a column on and leaves what stands before it.
func wrapKeeping(line string, from, columns int) []string {
	if width(line) <= columns {
		return []string{line}
	}
	lines := wrap(line[from:], columns-from)
	lines[0] = line[:from] + lines[0]
	return lines
}

// joinLong joins a line too long for the page with the one that goes on under its second column.
func joinLong(lines []string, columns int) []string {
	var joined []string
	for _, line := range lines {
		last := len(joined) - 1
		if last >= 0 && width(joined[last]) > columns && secondColumn(joined[last]) == len(line)-len(strings.TrimLeft(line, " ")) {
			joined[last] += " " + strings.TrimSpace(line)
			continue
		}
		joined = append(joined, line)
	}
	return joined
}
