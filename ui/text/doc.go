// Package text is what the window says: cards, forms, lists, tips and questions, as words and figures without a widget, so that
// what a person reads is tested without a window.
package text
