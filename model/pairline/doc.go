// Package pairline reckons a joined twisted-pair line: what it loses, how much of a limit it leaves in hand, how it
// reflects, leaks between its pairs, delays, and carries direct current. It holds numbers only: no plan, no screen.
//
// Conventions, stated once:
//   - frequency is in MHz, length in metres, temperature in degrees Celsius, impedance and resistance in ohms;
//   - a loss is positive in dB; a margin is limit minus loss, so more is better;
//   - the propagation constant is γ = α + jβ with the time convention e^(+jωt);
//   - a line is written from its near end to its far end;
//   - figures are those of one 100 Ω pair, reckoned between 100 Ω ends.
//
// Nothing here predicts a bit-error rate: these inputs cannot bear one.
package pairline
