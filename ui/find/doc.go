// Package find holds the lists by which one goes somewhere: a command of the menus by its words, a row of the plan by its
// name, a step of the history.
package find
