// Package meter is the virtual multimeter: what the display shows between two
// points of a panel in any state. The meter is in the network while it measures,
// so that a reading carries its load, and a reading that changes a device's
// state says so.
package meter
