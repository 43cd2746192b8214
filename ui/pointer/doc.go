// Package pointer says what the pointer does beyond a press: it rests on something, which then tells what it is, or it
// presses twice. It has the line of a list too, which shortens what has no room and is told whole.
package pointer
