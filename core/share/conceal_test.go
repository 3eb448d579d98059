package share_test

import (
	"fmt"
	"strings"
	"testing"

	"halfsplit/core/drill"
	"halfsplit/core/share"
)

// sealed is a drill as it is handed out, with words of the answer that stand
// nowhere else.
func sealed(t *testing.T, complaint, fault string) []byte {
	t.Helper()
	d, err := drill.Read([]byte(`{"format":"halfsplit-drill","version":1,"name":"The lamp","grade":1,"demo":"training-bench",` +
		`"complaint":"` + complaint + `","hidden":{"faults":["` + fault + `"],"plan":{"steps":1},"explanation":"SECRET of ` + fault + `"}}`))
	if err != nil {
		t.Fatal(err)
	}
	return drill.Write(drill.Seal(d.Drill))
}

// open is the same with the seal taken off, as its author has it.
func open(t *testing.T, data []byte) []byte {
	t.Helper()
	d, err := drill.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	out := *d.Drill
	out.Sealed = ""
	return drill.Write(&out)
}

// Two copies of a drill are told apart without a word of the answer.
func TestDiffOfDrillsHidesTheAnswer(t *testing.T) {
	a := sealed(t, "It is dark.", "W17=broken")
	for _, tc := range []struct {
		name string
		b    []byte
		want string
	}{
		{"the same", a, ""},
		{"the same, open", open(t, a), ""},
		{"another call", sealed(t, "It stays dark.", "W17=broken"), "changed   complaint [It is dark.] [It stays dark.]"},
		{"another fault", sealed(t, "It is dark.", "W18=broken"), "changed   hidden [] []"},
		{"another fault, open", open(t, sealed(t, "It is dark.", "W18=broken")), "changed   hidden [] []"},
	} {
		for _, turned := range []bool{false, true} {
			x, y := a, tc.b
			if turned {
				x, y = y, x
			}
			list, err := share.Diff(x, y)
			if err != nil {
				t.Fatalf("%s: %v", tc.name, err)
			}
			if got := lines(list); !turned && got != tc.want {
				t.Errorf("%s: got %q, want %q", tc.name, got, tc.want)
			}
			if told := fmt.Sprint(list); strings.Contains(told, "SECRET") || strings.Contains(told, "=broken") || strings.Contains(told, "==") {
				t.Errorf("%s: tells the answer: %s", tc.name, told)
			}
		}
	}
}

// A merged drill would have a seal that fits neither text.
func TestDrillsAreNotMerged(t *testing.T) {
	a, b := sealed(t, "It is dark.", "W17=broken"), sealed(t, "It stays dark.", "W17=broken")
	for _, base := range [][]byte{nil, a} {
		if m, err := share.Merge(base, a, b, nil); code(err) != "share.drills-not-merged" || m != nil {
			t.Errorf("merged: %v, %v", m, err)
		}
	}
	// Nor does a seal pass that was given to another text.
	mixed := strings.Replace(string(a), "It is dark.", "It stays dark.", 1)
	if _, err := share.Diff(a, []byte(mixed)); code(err) != "share.unread" {
		t.Errorf("a seal over another text: %v", err)
	}
}
