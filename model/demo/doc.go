// Package demo makes the plans that the program ships with and tests by: the Harrow Meadow Weekender, an invented
// festival; one link of every grade; and a large plan from a seed. Nobody and no place in them exists; telephone numbers
// are from the range kept for fiction.
package demo
