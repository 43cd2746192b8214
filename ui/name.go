package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// askName asks for a folder and a name, with more items of the form below, and hands the path over. Unlike the toolkit's own dialog it touches no
// file: that one cuts an existing file short before anything is written.
func (w *window) askName(title, name, extension, verb string, done func(path string), more ...*widget.FormItem) {
	w.askPath(title, name, extension, verb, func(path string) { w.confirmReplace(path, done) }, more...)
}

// askPath is askName for those that ask by themselves before they replace a file.
func (w *window) askPath(title, name, extension, verb string, done func(path string), more ...*widget.FormItem) {
	nameEntry, folderEntry := w.newField(), w.newField()
	nameEntry.SetText(name)
	folderEntry.SetText(w.folder())
	trouble := widget.NewLabel("")
	trouble.Importance = widget.DangerImportance
	form := widget.NewForm(
		widget.NewFormItem("Name", nameEntry),
		widget.NewFormItem("Folder", w.browsed(folderEntry)),
	)
	for _, item := range more {
		form.AppendItem(item)
	}
	d := dialog.NewCustomWithoutButtons(title, container.NewVBox(form, steady(trouble, 2)), w.window)
	take := func() {
		path, reason := pathOf(folderEntry.Text, nameEntry.Text, extension)
		if reason != "" {
			trouble.SetText(reason)
			return
		}
		d.Hide()
		done(path)
	}
	nameEntry.OnSubmitted = func(string) { take() }
	folderEntry.OnSubmitted = func(string) { take() }
	keep := widget.NewButton(verb, take)
	keep.Importance = widget.HighImportance
	d.SetButtons([]fyne.CanvasObject{widget.NewButton("Cancel", d.Hide), keep})
	d.Resize(fyne.NewSize(600, 230))
	w.escapable(d.Hide)
	d.Show()
	w.window.Canvas().Focus(nameEntry)
}

// browsed is a field for a folder with a button to look for one.
func (w *window) browsed(folder *field) fyne.CanvasObject {
	browse := widget.NewButton("Browse…", func() {
		d := dialog.NewFolderOpen(func(found fyne.ListableURI, err error) {
			if err == nil && found != nil {
				folder.SetText(found.Path())
			}
		}, w.window)
		w.prepare(d)
		d.Show()
	})
	return container.NewBorder(nil, nil, nil, browse, folder)
}

// pathOf joins folder and name, or says why that is no place for a file.
func pathOf(folder, name, extension string) (path, reason string) {
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

// freeName is a name that no file of the folder bears: with a number behind it where one does.
func freeName(folder, stem, extension string) string {
	name := stem + extension
	for n := 2; n < mostNumbers; n++ {
		if _, err := os.Lstat(filepath.Join(folder, name)); err != nil {
			break
		}
		name = fmt.Sprintf("%s %d%s", stem, n, extension)
	}
	return name
}

// confirmReplace asks before a file is replaced.
func (w *window) confirmReplace(path string, done func(path string)) {
	if _, err := os.Lstat(path); err != nil {
		done(path)
		return
	}
	w.ask("Replace the file?", filepath.Base(path)+" lies in this folder already.", []choice{
		{label: "Replace", do: func() { done(path) }},
		{label: "Cancel", important: true},
	})
}
