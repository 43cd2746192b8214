// Package stocklist gathers what is told of a stock into lists: pieces by kind and length, what is in each case and what it
// weighs, who has what of the house and until when, what is missing, what is promised. Paper, window and answers print these.
package stocklist
