// Package answers answers what a test of the real window asks over a local socket, one line of JSON for one line of JSON.
// Nothing of it runs unless the program is started with STAGELOOM_QUESTIONS naming that socket.
package answers
