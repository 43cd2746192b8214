// Package manual shows the manual: a list of pages, the text of one, and a search over all, in a window of its own. What is
// found where is told without a window. The program's cautions and what it is are shown here too.
package manual
