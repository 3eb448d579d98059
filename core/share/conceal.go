package share

import (
	"reflect"

	"halfsplit/core/drill"
)

// HiddenField is the field of a drill that holds what the learner is to find out.
const HiddenField = "hidden"

// conceal takes what a drill hides out of its tree, sealed or open: a list of
// differences is read by whoever is about to take the drill.
func conceal(t *tree) {
	t.drop(HiddenField)
	t.drop("sealed")
}

// hideAlike says whether two drills hide the same. Seals cannot be compared for
// that: each depends on all of the open text.
func hideAlike(a, b []byte) bool {
	x, errX := drill.Read(a)
	y, errY := drill.Read(b)
	return errX == nil && errY == nil && reflect.DeepEqual(x.Drill.Hidden, y.Drill.Hidden)
}
