// Package revision says in words a crew reads what changed between two states of
// a plan: what moved and how far, which links are new, gone, or laid otherwise.
// What only its bearer can see, such as an id or the order of a table, is no
// change.
package revision
