package diagnose_test

import (
	"slices"
	"testing"

	"halfsplit/core/diagnose"
	"halfsplit/core/meter"
)

// A coil is not called open on readings that no current stood behind: the last one is
// taken with the start button held, and shows what a joint of kilohms on the way to the
// coil would not let through (common practice: a voltage counts under load).
func TestFoundUnderLoad(t *testing.T) {
	e := engine(t, "dosing-skid", "normal")
	open := parse(t, e.Set, "K1=coil-open")
	a, obs, ok := follow(t, e, open)
	if !ok || a.Status != diagnose.Found || !slices.Equal(a.Suspects[0].Places, []string{"K1"}) || len(a.Hidden) > 0 {
		t.Errorf("an open coil: %s %v, hidden %v", a.Status, a.Suspects[0].Places, a.Hidden)
	}
	loaded := false
	for _, o := range obs {
		c := &e.Candidates[o.Candidate]
		loaded = loaded || c.Look == diagnose.NoLook && c.Mode == meter.VDC && e.Situations[c.Situation].With == "press S2"
	}
	if !loaded {
		t.Error("nothing was read with S2 pressed")
	}
	if a, _, _ = play(t, e, parse(t, e.Set, "W61@X6:1/out=loose:47 kohm")); !slices.Equal(a.Suspects[0].Places, []string{"W61"}) {
		t.Errorf("a joint of 47 kilohms on the way to it: %s %v", a.Status, a.Suspects[0].Places)
	}
}

// Where a contact seals its relay in nothing with power on tells it from a bad joint
// beside it: the joints are named.
func TestHiddenJointsAreNamed(t *testing.T) {
	e := engine(t, "training-bench", "normal")
	a, _, _ := play(t, e, parse(t, e.Set, "K1:13-14=stuck-open"))
	if a.Status != diagnose.Found || !slices.Equal(a.Suspects[0].Places, []string{"K1"}) || !slices.Equal(a.Hidden, []string{"W13", "W14"}) {
		t.Errorf("%s %v, hidden %v", a.Status, a.Suspects[0].Places, a.Hidden)
	}
}
