package dialogs

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/widget"
)

// AskName asks for a folder and a name, with more items of the form below, and hands the path over. Unlike the toolkit's own
// dialog it touches no file: that one cuts an existing file short before anything is written.
func AskName(host Host, title, name, extension, verb string, done func(path string), more ...*widget.FormItem) {
	AskPath(host, title, name, extension, verb, func(path string) { ConfirmReplace(host, path, done) }, more...)
}

// AskPath is AskName for those that ask by themselves before they replace a file.
func AskPath(host Host, title, name, extension, verb string, done func(path string), more ...*widget.FormItem) {
	nameEntry, folderEntry := NewEntry(host), NewEntry(host)
	nameEntry.SetText(name)
	folderEntry.SetText(host.Folder())
	trouble := widget.NewLabel("")
	trouble.Importance = widget.DangerImportance
	form := widget.NewForm(
		widget.NewFormItem("Name", nameEntry),
		widget.NewFormItem("Folder", Browsed(host, folderEntry)),
	)
	for _, item := range more {
		form.AppendItem(item)
	}
	d := New(host, title, container.NewVBox(form, RoomFor(trouble, 2)))
	take := func() {
		path, reason := PathOf(folderEntry.Text, nameEntry.Text, extension)
		if reason != "" {
			trouble.SetText(reason)
			return
		}
		d.Hide()
		done(path)
	}
	nameEntry.OnSubmitted = func(string) { take() }
	folderEntry.OnSubmitted = func(string) { take() }
	keep := NewAnswer(host, verb, take)
	keep.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{NewAnswer(host, "Cancel", d.Hide), keep})
	d.Fit(FormWidth, 0)
	host.Keys().Escapable(d.Hide)
	d.Show()
	Focus(host, nameEntry)
}

// Browsed is a field for a folder with a button to look for one.
func Browsed(host Host, folder *Entry) fyne.CanvasObject {
	browse := NewAnswer(host, "Browse…", func() {
		d := dialog.NewFolderOpen(func(found fyne.ListableURI, err error) {
			if err == nil && found != nil {
				folder.SetText(found.Path())
			}
		}, host.Window())
		Prepare(host, d)
		d.Show()
	})
	return container.NewBorder(nil, nil, nil, browse, folder)
}

// PathOf joins folder and name, or says why that is no place for a file.
func PathOf(folder, name, extension string) (path, reason string) {
	name = strings.TrimSpace(name)
	switch {
	case name == "":
		return "", "Give the file a name."
	case strings.ContainsAny(name, `/\`) || name == "." || name == "..":
		return "", "The name cannot hold / or \\; choose the folder below it."
	case !strings.EqualFold(filepath.Ext(name), extension):
		name += extension
	}
	info, err := os.Stat(folder)
	if err != nil || !info.IsDir() {
		return "", "There is no such folder: " + folder
	}
	path = filepath.Join(folder, name)
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return "", "A folder bears this name already."
	}
	return path, ""
}

// mostNumbers is how far a free name is looked for.
const mostNumbers = 1000

// FreeName is a name that no file of the folder bears: with a number behind it where one does.
func FreeName(folder, stem, extension string) string {
	name := stem + extension
	for n := 2; n < mostNumbers; n++ {
		if _, err := os.Lstat(filepath.Join(folder, name)); err != nil {
			break
		}
		name = fmt.Sprintf("%s %d%s", stem, n, extension)
	}
	return name
}

// ConfirmReplace asks before a file is replaced.
func ConfirmReplace(host Host, path string, done func(path string)) {
	if _, err := os.Lstat(path); err != nil {
		done(path)
		return
	}
	Ask(host, "Replace the file?", filepath.Base(path)+" lies in this folder already.", []Choice{
		{Label: "Replace", Do: func() { done(path) }},
		{Label: "Cancel", Important: true},
	})
}

// FileName makes a plan's name a file's: signs that some system forbids become hyphens.
func FileName(name string) string {
	clean := strings.Map(func(sign rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, sign) || sign < ' ' {
			return '-'
		}
		return sign
	}, strings.TrimSpace(name))
	if clean == "" || strings.Trim(clean, ".") == "" {
		return "plan"
	}
	return clean
}

// Prepare makes a file dialog large, starts it in the host's folder and lets Escape do what its Cancel does. The toolkit's
// lists and buttons keep Escape to themselves once Tab has gone to them.
func Prepare(host Host, d *dialog.FileDialog) {
	d.SetOnClosed(host.Keys().Escapable(d.Dismiss))
	size := host.Window().Canvas().Size()
	d.Resize(fyne.NewSize(size.Width*0.85, size.Height*0.85))
	d.SetView(dialog.ListView)
	if at, err := storage.ListerForURI(storage.NewFileURI(host.Folder())); err == nil {
		d.SetLocation(at)
	}
}
