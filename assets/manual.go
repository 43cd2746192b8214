package assets

import (
	"embed"
	"strings"
)

//go:embed manual/*.md
var manual embed.FS

// pages are the files of the manual in the order of reading.
var pages = []string{
	"laying-out", "links", "metres", "tables", "patch", "stock", "on-site", "line-check", "printing", "revisions", "lists", "files", "figures",
	"loomsheet", "keys", "safety",
}

// Page is a page of the manual: Name is its file in the folder manual without ".md", by which other pages link to it, Title its
// first heading, Text the Markdown below that.
type Page struct{ Name, Title, Text string }

// Manual returns the pages of the manual in the order of reading. The slice is the caller's own.
func Manual() []Page {
	all := make([]Page, len(pages))
	for i, name := range pages {
		text, err := manual.ReadFile("manual/" + name + ".md")
		if err != nil {
			panic("assets: " + err.Error()) // it is built in, so only the list above can be wrong
		}
		title, body, _ := strings.Cut(string(text), "\n")
		all[i] = Page{Name: name, Title: strings.TrimPrefix(title, "# "), Text: strings.TrimSpace(body)}
	}
	return all
}
