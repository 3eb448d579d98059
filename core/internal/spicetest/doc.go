// Package spicetest compares the core with ngspice, a circuit simulator that
// knows nothing of this project, and with published answers.
//
//	panels_test.go  generated panels, the demo panels and one more, sound and with a
//	                fault, node by node; plan_test.go chooses them
//	decks_test.go   decks written by hand from published circuits: testdata/spice
//	rest_test.go     whether every panel comes to rest
//
// Package netlist writes the circuit of a panel; this one hands it to ngspice
// (Deck, Run) and to a solver of its own with as many digits as it takes (Exact),
// which says who is right where the two disagree.
package spicetest
