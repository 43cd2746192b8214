// Package ui is the window of the desktop program: the plan, what stands round it, menus and keys, and what joins the
// rooms beside it. It needs no display by itself: with fyne's test driver all of it runs in tests.
package ui
