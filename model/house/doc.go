// Package house keeps what belongs to the user and not to one plan, in a folder that the program passes in: kinds of
// device of their own, and the house's stock of cables, from which plans take what their shows take. Each lies in one file
// in the form of a plan's tables, read as strictly and replaced whole or not at all.
package house
