// Package plantest draws random plans and random edits for property tests: rows of every table by their field
// tags, the edits of package plan, removals with all that hangs on them, and edits that must be refused.
//
// Every figure comes from the test's rapid source, so a failure shrinks and can be replayed.
package plantest
