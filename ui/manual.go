package ui

import (
	"strings"

	"stageloom/ui/find"
	"stageloom/ui/manual"
	"stageloom/ui/text"
)

// newManual is the window of the manual, closed yet.
func (w *window) newManual() *manual.Window {
	return &manual.Window{App: w.app, Keys: w.commandKeys}
}

// showManual shows the page about what one is at.
func (w *window) showManual() { w.manual.Show(w.pageInHand()) }

// commands are all items of the menus with what they do.
func (w *window) commands() ([]text.Command, []func()) { return find.Commands(w.menu(), w.close) }

// askCommand lists what the window can do.
func (w *window) askCommand() {
	all, do := w.commands()
	find.Command(w, all, do)
}

// commandKeys are the commands of the menus as the manual lists them.
func (w *window) commandKeys() (keys []manual.Key) {
	commands, _ := w.commands()
	for _, c := range commands {
		keys = append(keys, manual.Key{In: c.In, Name: strings.TrimPrefix(c.Name, text.Ticked), Keys: c.Keys})
	}
	return keys
}

// pageInHand is the page about what one is at: the dialog that is open, the day view, a table, the stock, the run strip, else
// the plan.
func (w *window) pageInHand() string {
	if page := manual.PageOfDialog(w.window.Canvas().Overlays().Top()); page != "" {
		return page
	}
	switch table := w.drawer.Holding(); {
	case w.day.Visible():
		if _, _, checking := w.day.Checking(); checking {
			return "line-check"
		}
		return "on-site"
	case table != "":
		return manual.PageOfTable(table)
	case w.stock.Focused(w.window.Canvas()):
		return "stock"
	case w.window.Canvas().Focused() == w.strip, w.window.Canvas().Focused() == w.margins, len(w.selectedLinks()) > 0:
		return "links"
	}
	return "laying-out"
}
