// Package day is the day view: one link at a time, large enough to be read in the sun at arm's length, with keys for what is
// done on site. What it says is text first; the view draws that text in black on white whatever the look of the window.
package day
