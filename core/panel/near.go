package panel

import (
	"strings"
	"unicode/utf8"
)

// Nearest is the name in from that is most like name, for "did you mean"; empty
// where none is alike. One slip is allowed in two or three characters, then one
// in three; a single character may only be of another case. Of equals the one
// with the nearer character wins (A3 is nearer to A2 than to A1), then the first.
func Nearest(name string, from []string) string {
	const longest = 64 // beyond it a comparison costs more than it tells
	n := utf8.RuneCountInString(name)
	if n == 0 || n > longest {
		return ""
	}
	best, limit, gap := "", 2*max(1, n/3), 0 // limit in half slips
	if n == 1 {
		limit = 1
	}
	for _, f := range from {
		if m := utf8.RuneCountInString(f); m > longest || 2*max(m-n, n-m) > limit {
			continue
		}
		if d := slips(name, f); d > 0 && d <= limit {
			if g := distance(name, f); best == "" || d < limit || d == limit && g < gap {
				best, limit, gap = f, d, g
			}
		}
	}
	return best
}

// slips counts half slips between a and b: a letter put in, left out or replaced
// is one slip; another case, or two neighbours swapped, half of one.
//
// Source: optimal string alignment (restricted Damerau-Levenshtein distance).
func slips(a, b string) int {
	x, y := []rune(a), []rune(b)
	prev2 := make([]int, len(y)+1)
	prev := make([]int, len(y)+1)
	row := make([]int, len(y)+1)
	for j := range prev {
		prev[j] = 2 * j
	}
	for i := 1; i <= len(x); i++ {
		row[0] = 2 * i
		for j := 1; j <= len(y); j++ {
			d := prev[j-1] + replaced(x[i-1], y[j-1])
			d = min(d, prev[j]+2, row[j-1]+2)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d = min(d, prev2[j-2]+1)
			}
			row[j] = d
		}
		prev2, prev, row = prev, row, prev2
	}
	return prev[len(y)]
}

// distance is how far apart the first two characters that differ are.
func distance(a, b string) int {
	y := []rune(b)
	for i, r := range []rune(a) {
		if i >= len(y) {
			break
		}
		if r != y[i] {
			return int(max(r-y[i], y[i]-r))
		}
	}
	return 0
}

func replaced(a, b rune) int {
	switch {
	case a == b:
		return 0
	case strings.EqualFold(string(a), string(b)):
		return 1
	}
	return 2
}
