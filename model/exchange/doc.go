// Package exchange turns what spreadsheets hold into rows of a plan and back: separated text (comma, semicolon, tab) and
// xlsx workbooks in, the same out. It alone knows the spreadsheet library.
//
// Reading goes in three steps. [Read] makes grids of text of a file, whatever its encoding and separator. [Guess] says
// which column means what, which the user may change. [ReadStock], [ReadCases] and [ReadInputs] make typed rows of a grid and name
// every cell that is none, by row and column. Rows enter a plan all at once or not at all; to leave faulty rows out is
// the user's own choice.
//
// Writing makes a [Book] of sheets with typed cells. A number stays a number, and no text becomes a formula.
package exchange
