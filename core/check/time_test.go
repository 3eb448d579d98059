package check

import (
	"fmt"
	"testing"
	"time"
)

// Times are judged as the standard library judges them, but for leap seconds,
// which neither takes.
func TestTimesAgreeWithPackageTime(t *testing.T) {
	texts := []string{"", "Z", "2026-01-02", "2026-01-02T03:04:05", "2026-01-02t03:04:05z", "2026-01-02T03:04:05Z",
		"2026-01-02T03:04:05.Z", "2026-01-02T03:04:05.1Z", "2026-01-02T03:04:05.123456789+02:00", "2026-01-02T03:04:05+2:00",
		"2026-01-02T03:04:05-23:59", "2026-01-02T24:00:00Z", "2026-01-02T23:60:00Z", "2026-01-02T23:59:60Z", "2026-00-02T00:00:00Z",
		"2026-13-02T00:00:00Z", "2026-01-00T00:00:00Z", "x026-01-02T03:04:05Z", "2026/01/02T03:04:05Z", "2026-01-02T03:04:05Z0"}
	for _, year := range []int{1900, 2000, 2023, 2024} {
		for month := 1; month <= 12; month++ {
			for day := 27; day <= 32; day++ {
				texts = append(texts, fmt.Sprintf("%04d-%02d-%02dT00:00:00Z", year, month, day))
			}
		}
	}
	for _, text := range texts {
		_, err := time.Parse(time.RFC3339, text)
		if got, want := isTime(text), err == nil; got != want {
			t.Errorf("%q is a time: %v, want %v", text, got, want)
		}
	}
}
