// Package paper draws printed pages: sheets with a frame and a title strip,
// tables, paragraphs, cautions, tick boxes, grade badges and free drawings.
// It knows nothing of a plan. It is the only importer of the PDF library, so
// that the library can be changed in one room.
//
// A document is a list of chapters. Write calls each chapter at least twice:
// first to count pages, then to draw. A chapter must therefore draw the same
// each time it is called.
//
// # Units and places
//
// Lengths are millimetres, type sizes are points. A Point lies to the right of
// and BELOW the top left corner of what it is in: y grows downwards.
//
// # Strings
//
// Every string may be anything a person can paste. Line breaks and tabs become
// spaces; control characters, direction controls and invisible marks go; bytes
// that are not UTF-8, emoji and letters the typeface lacks are printed as □.
// Whatever changes what is read is recorded: Book.Notices gives a sentence for
// each, to be printed as a caution.
//
// Right-to-left text is put in reading order with the page's direction left to
// right, digits unreversed and brackets mirrored. Hebrew reads right; Arabic
// letters are in the right order but not joined, and a notice says so.
package paper
