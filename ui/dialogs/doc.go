// Package dialogs holds the small parts that every dialog is made of: fields, lists and buttons that Escape leaves,
// questions, names of files, work that takes a while. They lie over a [Host] and know no more of the window than it says.
package dialogs
