// Package fields describes every field of a plan's rows that a user edits, once: what it is called, what it holds, how it is
// said and read, between which bounds, and by which edit it changes. The card, the tables, the dialogs and the lists that are
// taken in all edit rows by these descriptions; bounds come from the tags of plan's rows, edits from plan.
package fields
