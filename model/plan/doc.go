// Package plan holds the document of the house: one plan of a show's stage system as tables of plain rows.
//
// A Plan is immutable. An Edit builds the next one from it, copying a table at its first touch, and Commit
// either returns a plan that keeps every rule of Check or refuses with the reasons and changes nothing.
// A Delta is the difference of two plans; it serves the journal, revisions and comparison alike.
//
// Coordinates are metres, x to the right and y up the page. Rows hold no slice, map or pointer, so two rows
// are equal when == says so; parts (ports, way points, segments) are tables of their own with composite keys.
//
// Field tags are the single description of a row: `json` names it in the file (with omitzero: it may be left
// out, else it must stand there), `ref` names the table an id points into, `range` bounds a figure and `oneof`
// a word.
package plan
