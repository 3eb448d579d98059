package unit_test

import (
	"errors"
	"testing"

	"halfsplit/core/unit"
)

// Whatever stands in a fuse holder's field, ParseFuse gives a rating above zero or
// its own error.
func FuzzParseFuse(f *testing.F) {
	for _, s := range []string{"2 A T", "T2A", "T 2 A H", "500mA F", "C6", "6 A gG", "F2AL", "0,1 A T", "aM", "TT", "2AMA", "µ1A", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		fuse, err := unit.ParseFuse(s)
		var own *unit.Error
		if err != nil && !errors.As(err, &own) {
			t.Fatalf("ParseFuse(%q): %v is no *unit.Error", s, err)
		}
		if err == nil && !(fuse.Rated > 0 && fuse.Rated <= 10000) {
			t.Errorf("ParseFuse(%q) = %+v", s, fuse)
		}
	})
}
