// Package planfile reads and writes plans: the .stageloom file, and the one-line form of a plan.Delta that the
// journal and the revisions share.
//
// The file is JSON (RFC 8259, and strict as RFC 7493 asks) with one row a line: a header, the settings, then
// every table that holds rows, in the order of plan.Tables, its rows by key. What is equal is written equal, so
// a change of one field is a change of one line. Reading refuses whatever it would otherwise have to guess at,
// and says where it stands and what to do. The shape of a row is its struct's `json` tags and nothing else.
//
// A change of shape raises Version and adds an upgrade step for rows; the same step serves tables, revisions
// and journal lines.
package planfile
