// Package split parts two things by a hairline that a hand can drag: the divider takes no room, only a grab zone over it.
package split
