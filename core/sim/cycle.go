package sim

import "math"

// seenAt is when the panel was last in a state, and how long and how often it had
// been on its way back to it.
type seenAt struct {
	log    int
	ms     float64
	period float64
	times  int
}

// again is what to remember of a state the panel is in, for the first time or
// once more.
func (s seenAt) again(x *Machine, seen bool) seenAt {
	if !seen {
		return seenAt{log: len(x.log), ms: x.now}
	}
	return seenAt{log: len(x.log), ms: x.now, period: x.now - s.ms, times: s.times + 1}
}

// rounds bounds how many the panel is given to find its pace.
const rounds = 4

// steady says whether the round that ends now tells the pace of the cycle. The
// first one may have begun with clocks that had run for a while, so it is the one
// that takes as long as the round before.
func (s seenAt) steady(now float64) bool {
	return s.times > 0 && math.Abs(now-s.ms-s.period) < 1e-6 || s.times == rounds
}

// leap passes over the rounds in which nothing new happens while a clock has run
// all through the last one, begun at s: a fuse that blows after ten rounds ends
// what looks like a cycle. It stops time a little before the first of such clocks
// is due, and reports false when there is none.
func (x *Machine) leap(s seenAt) bool {
	period, first := x.now-s.ms, -1
	if period <= 0 {
		return false
	}
	for i, p := range x.due {
		if p.on && p.from < s.ms && (first < 0 || p.at < x.due[first].at) {
			first = i
		}
	}
	if first < 0 {
		return false
	}
	skip := float64(math.Floor((x.due[first].at-x.now)/period) * period)
	for i := range x.due {
		if p := &x.due[i]; p.on && p.from >= s.ms {
			p.from, p.at = p.from+skip, p.at+skip
		}
	}
	x.now += skip
	return true
}

// cycleSince makes the cycle of the elements that changed since s.
func (x *Machine) cycleSince(s seenAt) *Cycle {
	c := &Cycle{PeriodMS: x.now - s.ms}
	in := make([]bool, len(x.states))
	for _, e := range x.log[s.log:] {
		in[e.Element] = true
	}
	for i, member := range in {
		if member {
			c.Members = append(c.Members, i)
		}
	}
	return c
}
