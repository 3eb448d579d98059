// Package trace answers "what if": who is affected by a fault, how, and why. It
// compares two solved states, so that a reason is never a drawing's opinion:
// what the drawing calls downstream may be fed from elsewhere.
package trace
