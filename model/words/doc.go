// Package words is how figures, lists and rows are said: natural order, counting, listing, the names of rows and the units of
// the user. Screen, paper, lists and commands say them by it, so that one thing bears one word.
package words
