// Package picture turns an assessed plan into marks: the one picture that screen and paper share.
//
// Compose gathers the figures of a plan in metres. Arrange gives every device its box at a scale, pushed apart
// where boxes would cover each other, and every link its path. Letter places labels in a view so that none lies
// on another, and yields the marks and what a pointer hits. Symbols, text and widths are points of the view;
// a Pen gives the roles of the marks their looks on its medium.
package picture
