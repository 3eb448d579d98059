// Package parts is the catalogue of part kinds: the one place that knows what a
// fuse block or a two-wire transmitter is.
//
// A Kind says which terminals it has, which ratings and defaults (with their
// source), how it becomes branches and elements of a Net, which fault modes it
// can have, when it counts as working, and how it is drawn. Nothing outside this
// package compares or switches on the name of a kind; `make check` proves it.
//
// # From a kind to a network
//
// A Net is the flat result for a whole panel: nodes (pieces of metal), branches
// (every physical connection, so that it can fail), elements (what changes
// state) and devices (what a person would call working or dead). Builder is the
// pen each kind's Build function writes it with.
//
// To add a kind, write one file here with a Kind value and add it to the list
// in catalogue.go.
package parts
