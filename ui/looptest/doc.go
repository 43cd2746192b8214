// Package looptest gives tests a user interface with one goroutine, as a desktop has: what other goroutines hand over with
// fyne.Do waits until the test takes a turn. The toolkit's own test driver does it in place, beside the test.
package looptest
