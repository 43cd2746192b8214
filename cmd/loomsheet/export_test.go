package main

// Main is the program, for scripts that run it.
var Main = main

// Version is the program's.
const Version = version
