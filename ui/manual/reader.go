package manual

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stageloom/assets"
	"stageloom/ui/split"
)

// Reader is the list of pages, the text of one, and the field that searches them. The keys are always in the field: Up and Down
// go along the pages, the page keys move the text, Escape closes.
type Reader struct {
	pages  []assets.Page
	hits   []Hit
	at     int
	close  func()
	canvas fyne.Canvas

	entry *entry
	list  *widget.List
	text  *container.Scroll
	told  *widget.Label
}

// NewReader shows the page of a name first; close is what Escape does. It is shown on the canvas that it is given.
func NewReader(canvas fyne.Canvas, pages []assets.Page, first string, close func()) *Reader {
	r := &Reader{canvas: canvas, pages: pages, close: close, told: widget.NewLabel(""), text: container.NewVScroll(container.NewVBox())}
	r.entry = &entry{reader: r}
	r.entry.ExtendBaseWidget(r.entry)
	r.entry.SetPlaceHolder("search the manual")
	r.entry.OnChanged = r.search
	r.told.Importance = widget.LowImportance
	r.told.Wrapping = fyne.TextWrapWord
	r.list = widget.NewList(
		func() int { return len(r.hits) },
		func() fyne.CanvasObject { return widget.NewLabel("What the figures are") },
		func(i int, object fyne.CanvasObject) {
			object.(*widget.Label).SetText(r.pages[r.hits[i].Page].Title)
		})
	r.list.HideSeparators = true
	r.list.OnSelected = r.selected
	r.hits = Find(pages, "")
	r.Open(first)
	return r
}

// Content is all of it, to be put into a window.
func (r *Reader) Content() fyne.CanvasObject {
	side := container.NewBorder(r.entry, r.told, nil, nil, r.list)
	halves := split.Across(side, r.text)
	halves.Offset = 0.27
	return container.NewPadded(halves)
}

// Focus puts the keys into the search field.
func (r *Reader) Focus() { r.canvas.Focus(r.entry) }

// TypedKey does what a key does while nothing has the focus, as after a click on the text; TypedRune searches.
func (r *Reader) TypedKey(event *fyne.KeyEvent) {
	r.Focus()
	r.entry.TypedKey(event)
}

// TypedRune goes to the search field.
func (r *Reader) TypedRune(sign rune) {
	r.Focus()
	r.entry.TypedRune(sign)
}

// Shown is the name of the page that is shown, blank where a search finds none.
func (r *Reader) Shown() string {
	if len(r.hits) == 0 {
		return ""
	}
	return r.pages[r.hits[r.at].Page].Name
}

// Open shows the page of a name, with all pages in the list; a name that is not there shows the first page.
func (r *Reader) Open(name string) {
	if r.entry.Text != "" {
		r.entry.SetText("")
	}
	at := 0
	for i, hit := range r.hits {
		if r.pages[hit.Page].Name == name {
			at = i
		}
	}
	r.show(at)
}

func (r *Reader) search(text string) {
	r.hits = Find(r.pages, text)
	r.list.UnselectAll()
	r.list.Refresh()
	if len(r.hits) == 0 {
		r.told.SetText("No page holds these words.")
		return
	}
	r.told.SetText("")
	if text != "" {
		r.told.SetText(fmt.Sprintf("%d of %d pages. Up and Down choose.", len(r.hits), len(r.pages)))
	}
	r.show(0)
}

// show selects a page in the list, which shows it.
func (r *Reader) show(at int) {
	r.at = at
	r.list.UnselectAll() // so that the page is drawn anew where another search had it in the same line
	r.list.Select(at)
}

// selected draws the page that the list selects, from the section in which the words of the search stand.
func (r *Reader) selected(at int) {
	r.at = at
	hit := r.hits[at]
	page := r.pages[hit.Page]
	box := container.NewVBox(heading(page.Title))
	for _, section := range Sections(page) {
		box.Add(r.rich(string(section)))
	}
	r.text.Content = box
	r.text.Offset = fyne.Position{}
	r.text.Refresh()
	if hit.Section > 0 {
		r.text.ScrollToOffset(fyne.NewPos(0, box.Objects[hit.Section+1].Position().Y))
	}
	r.Focus()
}

func heading(title string) *widget.RichText {
	text := widget.NewRichText(&widget.TextSegment{Text: title, Style: widget.RichTextStyleHeading})
	text.Wrapping = fyne.TextWrapWord
	return text
}

// rich is a section whose links open pages.
func (r *Reader) rich(markdown string) *widget.RichText {
	text := widget.NewRichTextFromMarkdown(markdown)
	text.Wrapping = fyne.TextWrapWord
	r.wire(text.Segments)
	return text
}

func (r *Reader) wire(segments []widget.RichTextSegment) {
	for _, segment := range segments {
		if link, is := segment.(*widget.HyperlinkSegment); is {
			name := strings.TrimSuffix(link.URL.Path, ".md")
			link.OnTapped = func() { r.Open(name) }
		}
		if block, is := segment.(widget.RichTextBlock); is {
			r.wire(block.Segments())
		}
	}
}

// move goes along the list.
func (r *Reader) move(by int) {
	if len(r.hits) > 0 {
		r.show(max(0, min(r.at+by, len(r.hits)-1)))
	}
}

// scroll moves the text by a part of what is seen of it.
func (r *Reader) scroll(part float32) {
	r.text.ScrollToOffset(fyne.NewPos(0, r.text.Offset.Y+part*r.text.Size().Height))
}

// entry is the search field, which has all keys.
type entry struct {
	widget.Entry
	reader *Reader
}

// TypedKey implements fyne.Focusable.
func (e *entry) TypedKey(event *fyne.KeyEvent) {
	const most = 0.9 // of what is seen, so that a line stays
	switch event.Name {
	case fyne.KeyEscape, fyne.KeyF1:
		e.reader.close()
	case fyne.KeyDown:
		e.reader.move(1)
	case fyne.KeyUp:
		e.reader.move(-1)
	case fyne.KeyPageDown:
		e.reader.scroll(most)
	case fyne.KeyPageUp:
		e.reader.scroll(-most)
	default:
		e.Entry.TypedKey(event)
	}
}

// AcceptsTab implements fyne.Tabbable: the keys stay in the field.
func (*entry) AcceptsTab() bool { return true }

// TypedRune implements fyne.Focusable.
func (e *entry) TypedRune(r rune) {
	if r != '\t' {
		e.Entry.TypedRune(r)
	}
}
