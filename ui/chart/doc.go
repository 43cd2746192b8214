// Package chart draws a small chart of loss over frequency: the loss of a link in the line of its grade under its
// dashed limit, a ring at the worst point, and further curves thin beside them. Frequency runs on a logarithmic axis
// to the right, decibels downwards, as a loss takes away.
package chart
