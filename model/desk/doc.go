// Package desk holds one open plan: its history, selection, file and current assessment.
//
// Do is the only way the plan changes. Undo and redo swap whole plans, so no edit needs an inverse. Listeners
// hear one event a change; selection is not part of the document. A Desk is used by one goroutine.
package desk
