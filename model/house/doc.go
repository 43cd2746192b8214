// Package house keeps what belongs to the user and not to one plan: kinds of device of their own. They lie in one
// file in a folder that the program passes in, in the form of a plan's file and read as strictly.
package house
