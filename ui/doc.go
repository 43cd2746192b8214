// Package ui is the window of the desktop program: the plan, what stands round it, menus and dialogs. It needs no
// display by itself: with fyne's test driver all of it runs in tests.
package ui
