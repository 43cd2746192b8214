// Package e2e works the real window of the desktop program under a display of its own. Its tests run where
// STAGELOOM_WINDOW names the built program; cmd/e2e/window builds it and sets that.
package e2e
