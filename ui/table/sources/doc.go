// Package sources says what the tables of the window hold: links, cables, devices, positions, stock, house lines, inputs,
// outputs, findings, each as a table.Source of one assessment, as text.
package sources
