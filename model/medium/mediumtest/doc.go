// Package mediumtest brings a medium that no room knows by name, for tests that all of them ask the seam: string between
// cans, which loses 1 dB every 10 m and 2 dB a knot, bears 12 dB, and is judged by ear; bells on it are judged by the pull, of
// which half as many decibels are lost.
package mediumtest
