// Package demo makes the plan that the program ships with, by which tests look at it too: the Harrow Meadow Weekender, an
// invented festival. Nobody and no place in it exists; telephone numbers are from the range kept for fiction.
package demo
