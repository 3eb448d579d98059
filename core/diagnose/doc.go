// Package diagnose finds the culprit: it weighs every single fault of a panel
// against what a person saw and measured, and chooses the next reading.
//
// # Hypotheses
//
// A hypothesis is one fault, in the running panel or there before the condition's
// steps, and always solved; never a connectivity shortcut. A large panel has too
// many for everything to be solved, so a search does it in stages (Prepare):
//
//   - what it is about (scope.go): the zone of the complaint and those that what
//     stands above it lies in;
//   - every fault in that scope, for what a look shows (aspect.go);
//   - those that no look contradicts, for every reading of the scope
//     (hypothesis.go), kept where it differs from the healthy panel's;
//   - only when readings have ruled these out, every fault of the panel, replayed
//     from cold where it joins something (prepare.go);
//   - and when these are ruled out too, joints and earth faults of whatever resistance
//     the readings ask for (fitted.go).
//
// A fault outside the scope shows there what the healthy panel shows. A fault there
// before the steps goes on from the panel powered up, where what could not have
// pulled in is let go.
//
// # Bayes
//
// prior × likelihood of each observation. A reading has meter accuracy, part and
// supply tolerance, and a small chance of being wrong. What was seen is taken at its
// word while some fault explains everything: those that contradict it have no weight
// until then.
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
