// Package journal keeps what is not saved yet: an append-only file of the edits made since a plan was opened or
// saved, so that a crash loses at most the edit that was under way.
//
// Each line bears a checksum of its content. The first says what the journal is about, the second is the whole plan it
// begins with, as a Delta from nothing; then comes one line an edit, undo and redo included. A journal that outgrows its
// plan is written anew: its oldest edits become part of the plan it begins with. It is locked while its program lives, so
// that only what a dead one left behind is offered, and to one window alone. Lines are handed to the system at once, which
// survives the end of the program, and to the disk at most a second later, which bounds what a loss of power costs;
// waiting for the disk at each edit would be felt. What a disk refuses is tried again with the next edit.
package journal
