package stock

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"

	"stageloom/model/atomicfile"
	"stageloom/model/exchange"
	"stageloom/model/words"
	"stageloom/ui/dialogs"
	"stageloom/ui/text"
)

// encodingChoice lets the user say what encoding a text is in. Every dialog that reads a list has it from here.
type encodingChoice struct {
	list    *dialogs.Chooser
	shown   fyne.CanvasObject
	showing bool
}

// newEncodingChoice makes a choice that is hidden until a text was read; chosen reads it anew.
func (s *Dialogs) newEncodingChoice(chosen func(encoding string)) *encodingChoice {
	c := &encodingChoice{}
	c.list = dialogs.NewChooser(s, exchange.Encodings(), func(name string) {
		if !c.showing {
			chosen(name)
		}
	})
	c.shown = labelled("Encoding", c.list)
	c.shown.Hide()
	return c
}

// show shows the encoding that a text was read in; blank, as of a workbook, hides the choice.
func (c *encodingChoice) show(encoding string) {
	if encoding == "" {
		c.shown.Hide()
		return
	}
	c.showing = true
	c.list.SetSelected(encoding)
	c.showing = false
	c.shown.Show()
}

// load reads the file, its encoding guessed, and guesses what its columns mean.
func (d *importDialog) load() { d.loadAs("") }

// loadAs reads the file in an encoding that the user says, blank for the guess. A long one is read beside the window, which
// says so and can be closed meanwhile.
func (d *importDialog) loadAs(encoding string) {
	path := strings.TrimSpace(d.path.Text)
	relettered := encoding != ""
	if relettered {
		d.keepFile(func(file *fileChoices) {
			if file.encoding == "" {
				file.guessed = d.file.Encoding
			}
			file.encoding = encoding
		})
	}
	kept := d.keptFile()
	d.run++
	run, done := d.run, make(chan func(), 1)
	go func() {
		document, err := readList(path, encoding)
		if err == nil && !relettered && kept.encoding != "" && document.Encoding == kept.guessed {
			encoding = kept.encoding // the file looks as it did when it was chosen
			document, err = readList(path, encoding)
		}
		done <- func() { d.loaded(run, encoding, relettered, document, err) }
	}()
	select {
	case show := <-done:
		show()
	case <-time.After(dialogs.Noticeable):
		d.empty("Reading " + filepath.Base(path) + "… Cancel gives it up.")
		go func() { fyne.Do(<-done) }()
	}
}

func readList(path, encoding string) (document exchange.Document, err error) {
	file, _, err := atomicfile.OpenRegular(path)
	if errors.Is(err, atomicfile.ErrNotRegular) {
		return document, fmt.Errorf("%s is a folder, a pipe or a device, and no list: choose a CSV or xlsx file", filepath.Base(path))
	} else if err != nil {
		return document, err
	}
	document, err = exchange.ReadAs(path, file, encoding)
	_ = file.Close() // it was only read
	return document, err
}

// importHeight is how high the dialog is at least with a file, in units of the window.
const importHeight = 740

// showFile shows what asks and tells of a file, once there was one.
func (d *importDialog) showFile() {
	if d.ofFile.Visible() {
		return
	}
	d.first.Hide()
	d.ofFile.Show()
	d.dialog.Fit(dialogs.WideWidth, importHeight)
	d.dialog.Refresh()
}

// loaded takes what was read in, unless it was given up or another file was asked for meanwhile.
func (d *importDialog) loaded(run int, encoding string, relettered bool, document exchange.Document, err error) {
	if run != d.run {
		return
	}
	d.file = document
	d.showFile()
	if err != nil {
		d.file = exchange.Document{}
		d.encoding.show(encoding) // one that does not fit can be changed for another
		d.empty(words.Sentence(err))
		return
	}
	d.encoding.show(d.file.Encoding)
	how := fmt.Sprintf("%s, separated by %s", d.file.Encoding, map[string]string{",": "commas", ";": "semicolons", "\t": "tabs"}[d.file.Separator])
	if d.file.Encoding == "" {
		how = "a workbook"
	}
	d.read.SetText(text.ReadTold(how, d.file.Notices))
	var sheets []string
	at := 0
	for i, grid := range d.file.Grids {
		sheets = append(sheets, fmt.Sprintf("%s, %d rows", grid.Name, len(grid.Rows)))
		if grid.Name == d.keptFile().sheet {
			at = i
		}
	}
	d.filling = true
	d.sheet.Options = sheets
	d.sheet.SetSelectedIndex(at)
	d.filling = false
	d.guess()
	if grid, found := d.grid(); found && relettered {
		d.layout = d.keptLayout(grid, true) // other letters, the same columns
		d.offerHeads(grid)
		d.show()
		d.reckon()
	}
}
