// Package pointer says what the pointer does beyond a press: it rests on something, which then tells what it is, or it
// presses twice.
package pointer
