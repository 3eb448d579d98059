package generate

// A random is SplitMix64, written out so that a seed means the same panel with
// every version of Go. Source: Steele, Lea & Flood, "Fast splittable pseudorandom
// number generators", OOPSLA 2014.
type random struct{ state uint64 }

func (r *random) next() uint64 {
	r.state += 0x9e3779b97f4a7c15
	z := r.state
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below gives a number from 0 to n-1. Its bias is n/2^64, which no panel shows.
func (r *random) below(n int) int { return int(r.next() % uint64(n)) }

// between gives a number from lo to hi, both included.
func (r *random) between(lo, hi int) int { return lo + r.below(hi-lo+1) }

// chance is true that many times in a hundred.
func (r *random) chance(percent int) bool { return r.below(100) < percent }

// pick gives one of the choices.
func pick[T any](r *random, from ...T) T { return from[r.below(len(from))] }
