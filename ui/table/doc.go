// Package table is the grid in which rows of a plan are read and edited: sorted, filtered, edited in place or many at
// once, copied to a spreadsheet and pasted from it, by keyboard alone where one likes.
//
// What a table shows is a Source: rows and columns of one state of the plan, as text. List makes one of typed rows. Sheet
// holds what the user does with it without a window, and Grid is the widget on a Sheet.
package table
