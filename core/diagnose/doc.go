// Package diagnose finds the culprit: it weighs every single fault of a panel
// against what a person saw and measured, and chooses the next reading.
//
// # Hypotheses
//
// Every fault of the panel is solved, in the running panel and, where the
// condition has steps, from a cold start with the fault present; never a
// connectivity shortcut. What a hypothesis stores is sparse: the points whose
// voltage moves, the devices whose state changes, and the readings that would
// come out otherwise than on the healthy panel.
//
// # Bayes
//
// prior × likelihood of each observation. A reading has meter accuracy, part and
// supply tolerance, and a small chance of being wrong.
//
// # Suspects
//
// Hypotheses that one repair at one place mends share a suspect; so do those
// that no permitted reading tells apart. A permitted reading keeps both probes
// in the panel or at one field device: leads do not reach further.
//
// # Next reading
//
// Expected information per minute: the mutual information between suspect and
// outcome, over the time the reading takes. Source: Shannon 1948; its use for
// the choice of the next measurement, de Kleer & Williams 1987.
package diagnose
