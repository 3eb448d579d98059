package unit

import (
	"strconv"
	"strings"
)

// A Fuse is a fuse link or breaker as people write it: rated current and
// characteristic.
type Fuse struct {
	Rated    float64 // amperes
	Class    string  // "F", "T" (IEC 60127), "gG" (IEC 60269), "B", "C", "D", "K", "Z" (breakers); empty when unsaid
	Breaking string  // "L" or "H" (IEC 60127 breaking capacity); empty when unsaid
}

var fuseClasses = map[string]string{
	"F": "F", "T": "T", "FF": "FF", "TT": "TT", "M": "M",
	"GG": "gG", "GL": "gG", "AM": "aM",
	"B": "B", "C": "C", "D": "D", "K": "K", "Z": "Z",
}

// ParseFuse reads "2 A T", "T2A", "2AT", "T 2 A H", "500mA F", "C6", "6 A gG",
// "F2AL". The error is an *Error.
func ParseFuse(s string) (Fuse, error) {
	bad := &Error{Text: s, Want: Current}
	if len(s) > 40 {
		return Fuse{}, bad
	}
	t := strings.ToUpper(strings.ReplaceAll(fold.Replace(s), " ", ""))
	start := strings.IndexAny(t, "0123456789.,")
	if start < 0 {
		return Fuse{}, bad
	}
	prefix, rest := t[:start], t[start:]
	n := numberLen(rest)
	if n == 0 {
		return Fuse{}, bad
	}
	v, err := strconv.ParseFloat(strings.Replace(rest[:n], ",", ".", 1), 64)
	if err != nil || v <= 0 || v > 10000 {
		return Fuse{}, bad
	}
	tail := rest[n:]
	switch {
	case strings.HasPrefix(tail, "MA"):
		v, tail = v*1e-3, tail[2:]
	case strings.HasPrefix(tail, "A") && tail != "AM":
		tail = tail[1:]
	}
	f := Fuse{Rated: v}
	for _, word := range []string{prefix, tail} {
		if word == "" {
			continue
		}
		if c, ok := fuseClasses[word]; ok && f.Class == "" {
			f.Class = c
			continue
		}
		if k := len(word) - 1; k >= 0 && (word[k] == 'L' || word[k] == 'H') {
			f.Breaking = word[k:]
			if word = word[:k]; word == "" {
				continue
			}
			if c, ok := fuseClasses[word]; ok && f.Class == "" {
				f.Class = c
				continue
			}
		}
		return Fuse{}, bad
	}
	return f, nil
}
