// Package layers holds no code for the program: its tests prove what the
// project says about its own structure. Each rule is also run on something
// that breaks it, so that a rule that cannot fail is noticed.
//
//	order_test.go   a package imports only packages above it
//	purity_test.go  the core knows no browser, disk, clock or network, and
//	                computes the same on every processor
//	kinds_test.go   nothing outside package parts decides by the kind of a part
//	fused_test.go   the compiler fuses no multiplication with an addition
package layers
