// Package hosttest gives tests a host that dialogs lie over, without the program's window, and finds what lies in the dialog
// on top of it.
package hosttest
