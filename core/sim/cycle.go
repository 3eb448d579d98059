package sim

import "math"

// seenAt is when the panel was last in a state, and how long and how often it had
// been on its way back to it.
type seenAt struct {
	log    int
	ms     float64
	period float64
	times  int
	clocks uint64
}

// again is what to remember of a state the panel is in, for the first time or
// once more.
func (s seenAt) again(x *Machine, seen bool) seenAt {
	if !seen {
		return seenAt{log: len(x.log), ms: x.now, clocks: x.clocks()}
	}
	return seenAt{log: len(x.log), ms: x.now, period: x.now - s.ms, times: s.times + 1, clocks: x.clocks()}
}

// clocks is a hash of how long the changes under way have run and have still to
// run, to the nanosecond.
func (x *Machine) clocks() (h uint64) {
	for _, i := range x.attention.restless {
		if p := &x.due[i]; p.on {
			left := mix(int(i), int(math.Round(float64(1e6*(p.at-x.now)))))
			h ^= mix(int(left>>1), int(math.Round(float64(1e6*(x.now-p.from)))))
		}
	}
	return h
}

// certain says whether the next round is sure to be like the last, which began at
// s and ends now: all clocks stand as they stood then, and states and clocks are
// all the memory there is, for what is continuous in a state follows them at once.
// Then it need not be solved, unless another state on the way ends it sooner.
func (s seenAt) certain(now seenAt, seen map[uint64]seenAt) bool {
	if s.clocks != now.clocks {
		return false
	}
	for _, k := range seen {
		if k.ms > s.ms && k.steady(k.ms+now.period) {
			return false
		}
	}
	return true
}

// repeat goes on by one more round like the one since s.
func (x *Machine) repeat(s seenAt) {
	period := x.now - s.ms
	for _, e := range x.log[s.log:] {
		e.MinMS, e.MaxMS = e.MinMS+period, e.MaxMS+period
		x.log = append(x.log, e)
	}
	for _, i := range x.attention.restless {
		p := &x.due[i]
		p.from, p.at = p.from+period, p.at+period
	}
	x.now += period
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
