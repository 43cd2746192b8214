// Package manual shows the manual: a list of pages, the text of one, and a search over all. What is found where is told
// without a window.
package manual
