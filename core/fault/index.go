package fault

import (
	"strings"

	"halfsplit/core/parts"
)

// An index finds faults by their canonical names without keeping the names: a
// large panel has hundreds of thousands. Open addressing, at most half full.
type index struct {
	slots []int32 // 1 + place in the list; 0: free
}

func newIndex(most int) index {
	size := 16
	for size < 2*most {
		size *= 2
	}
	return index{make([]int32, size)}
}

// find gives the slot that holds a name or, where none does, the one to put it in.
// hash is the name's, is says whether a fault of the list has it.
func (x index) find(hash uint64, is func(i int32) bool) (slot int, found bool) {
	mask := len(x.slots) - 1
	for slot = int(hash) & mask; x.slots[slot] != 0; slot = (slot + 1) & mask {
		if is(x.slots[slot] - 1) {
			return slot, true
		}
	}
	return slot, false
}

// FNV-1a, folded: the low bits choose the slot.
const (
	hashStart = 14695981039346656037
	hashPrime = 1099511628211
)

func hashOn(h uint64, text string) uint64 {
	for i := range len(text) {
		h = (h ^ uint64(text[i])) * hashPrime
	}
	return h
}

func fold(h uint64) uint64 { return h ^ h>>32 }

// hashOf is the hash of a mode's name.
func hashOf(m *parts.Mode) uint64 {
	h := hashOn(hashOn(hashOn(hashStart, m.Thing), "="), m.Name)
	if m.Value != "" {
		h = hashOn(hashOn(h, ":"), m.Value)
	}
	return fold(h)
}

// named says whether a mode has a name.
func named(m *parts.Mode, key string) bool {
	rest, ok := strings.CutPrefix(key, m.Thing)
	if ok {
		rest, ok = strings.CutPrefix(rest, "=")
	}
	if ok {
		rest, ok = strings.CutPrefix(rest, m.Name)
	}
	if !ok || m.Value == "" {
		return ok && rest == ""
	}
	rest, ok = strings.CutPrefix(rest, ":")
	return ok && rest == m.Value
}
