package manual

import (
	"slices"
	"strings"

	"stageloom/assets"
)

// Key is a command of the menus as the page of keys names it: the menus that it lies in, its name, and its keys, which may be
// blank.
type Key struct{ In, Name, Keys string }

// Pages are the pages of the manual. The page of keys ends with the commands that have keys, menu by menu.
func Pages(commands []Key) []assets.Page {
	pages := assets.Manual()
	at := slices.IndexFunc(pages, func(p assets.Page) bool { return p.Name == "keys" })
	pages[at].Text += commandText(commands)
	return pages
}

// commandText lists commands that have keys as Markdown. A menu below a menu has a heading of its own, behind it.
func commandText(commands []Key) string {
	var menus []string
	lines := map[string]string{}
	for _, c := range commands {
		if c.Keys == "" {
			continue
		}
		if lines[c.In] == "" {
			menus = append(menus, c.In)
		}
		lines[c.In] += "\n- " + plain(c.Name) + ": **" + plain(c.Keys) + "**"
	}
	var text strings.Builder
	for _, menu := range menus {
		text.WriteString("\n\n## Menu " + menu + "\n" + lines[menu])
	}
	return text.String()
}

// plain is a text in which nothing is Markdown: the name of a step to undo may hold anything.
func plain(text string) string {
	return strings.NewReplacer(`\`, `\\`, "*", `\*`, "_", `\_`, "`", "\\`", "[", `\[`, "<", `\<`).Replace(text)
}

// Section is a part of a page below one heading, as Markdown with the heading.
type Section string

// Sections are the parts of a page; the first is what stands before its first heading.
func Sections(page assets.Page) (sections []Section) {
	parts := strings.Split("\n"+page.Text, "\n## ")
	for i, part := range parts {
		text := strings.TrimSpace(part)
		switch {
		case i > 0:
			sections = append(sections, Section("## "+text))
		case text != "":
			sections = append(sections, Section(text))
		}
	}
	return sections
}

// Hit is a page in which every word of a search stands, and the first of its sections in which most of them stand.
type Hit struct{ Page, Section int }

// Find returns where the words of text stand, in any case: pages whose title holds them first, then in the order of reading.
// A blank text finds every page.
func Find(pages []assets.Page, text string) (hits []Hit) {
	words := strings.Fields(strings.ToLower(text))
	var titled, others []Hit
	for i, page := range pages {
		title := strings.ToLower(page.Title)
		if count(title+" "+strings.ToLower(page.Text), words) < len(words) {
			continue
		}
		if len(words) > 0 && count(title, words) == len(words) {
			titled = append(titled, Hit{Page: i})
			continue
		}
		others = append(others, Hit{i, bestSection(page, words)})
	}
	return append(titled, others...)
}

func bestSection(page assets.Page, words []string) (best int) {
	most := 0
	for i, section := range Sections(page) {
		if n := count(strings.ToLower(string(section)), words); n > most {
			best, most = i, n
		}
	}
	return best
}

// count is how many of the words stand in a text.
func count(text string, words []string) (n int) {
	for _, word := range words {
		if strings.Contains(text, word) {
			n++
		}
	}
	return n
}
