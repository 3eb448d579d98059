// Package fault lists what can go wrong with a panel: the modes each kind
// declares for itself, and what people and cables do to wires: landed on the
// wrong terminal, swapped, shorted to a neighbour or to earth.
//
// # Names
//
// A fault is THING=MODE or THING=MODE:VALUE, in one canonical form:
//
//	F3=blown  X3:7.2=lever-open  W12=broken  W12@X1:4/out=lifted
//	W12@X1:4/out=loose:10ohm  W12@X1:4/out=moved:X1:5/out
//	W12~W13=short  W12~PE=short  X1:3~X1:4=no-jumper  B2=reversed
//
// All lists every single fault of a panel; Parse reads one by name, with values
// All does not list (another resistance, another terminal).
//
// To add a fault of one kind of part, declare a Mode where the kind is built in
// package parts; to add one between things, write a file here and call it in All.
package fault
