package drill

import (
	"slices"
	"strconv"
	"strings"
)

func itoa(n int) string { return strconv.Itoa(n) }

// sameSet says whether two lists hold the same numbers.
func sameSet(a, b []int) bool {
	a, b = slices.Clone(a), slices.Clone(b)
	slices.Sort(a)
	slices.Sort(b)
	return slices.Equal(slices.Compact(a), slices.Compact(b))
}

func join(list []int) string {
	var words []string
	for _, n := range list {
		words = append(words, itoa(n))
	}
	return strings.Join(words, " ")
}
