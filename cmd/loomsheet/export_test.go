package main

// Main is the program, for scripts that run it.
var Main = main

// NotPrinted says what became of a print's file.
var NotPrinted = notPrinted

// Describe names a row of a plan.
var Describe = describe

// Number is a figure in JSON.
type Number = number

// Version is the program's.
const Version = version

// Run is one call of the program: its arguments, where it writes, its exit code.
var Run = run
