// Package pace spreads a long computation over many calls, so that whoever waits is
// told how far it has come and may change their mind.
//
// The computation is written as if it ran in one piece. It says what it spends, and
// it breathes where everything about it is in order: there a Job waits when its
// portion is used up, and goes on with the next one.
package pace

import (
	"iter"
	"runtime"
)

// A Pace counts what a computation spends. Without a Job, and where it is nil,
// nothing is counted and nobody waits.
type Pace struct {
	done, total int
	left        int
	wait        func() // nil: no job is under way
}

// Expect says that n more things are to be done.
func (p *Pace) Expect(n int) {
	if p != nil {
		p.total += n
	}
}

// Did says that n of them are done.
func (p *Pace) Did(n int) {
	if p != nil {
		p.done += n
	}
}

// Spend counts an effort, in whatever unit the portions are given in.
func (p *Pace) Spend(effort int) {
	if p != nil {
		p.left -= effort
	}
}

// Breathe waits for the next portion when this one is used up. What the caller has
// begun may never be finished: only what is whole may be kept by then.
func (p *Pace) Breathe() {
	if p != nil && p.wait != nil && p.left <= 0 {
		p.wait()
	}
}

// Yield gives the collector of memory a turn, where it has begun anything. In a browser
// it has no thread of its own: what began inside a long answer would end only after it,
// and until then nothing that is let go is used again and every pointer that is written
// goes through its barrier.
func Yield() { runtime.Gosched() }

// A Job is a computation that is done in portions: it runs only while whoever asked
// for a portion waits for it. It must be stopped unless it has come to its end: what
// waits is never collected.
type Job struct {
	pace     *Pace
	next     func() (struct{}, bool)
	stop     func()
	yield    func(struct{}) bool
	stopping bool
}

// stopped unwinds a computation that is not to go on.
type stopped struct{}

// Start makes a job of a computation that breathes by p, at which no other job is
// under way. It begins with Next.
func Start(p *Pace, compute func()) *Job {
	p.done, p.total = 0, 0
	j := &Job{pace: p}
	j.next, j.stop = iter.Pull(func(yield func(struct{}) bool) {
		j.yield = yield
		defer func() {
			if j.stopping {
				_ = recover()
			}
		}()
		compute()
	})
	return j
}

func (j *Job) wait() {
	if !j.yield(struct{}{}) {
		j.stopping = true
		panic(stopped{})
	}
}

// Next goes on for a portion of effort, and says whether the computation has come to
// its end. A panic of it comes through; there is nothing to go on with after that.
func (j *Job) Next(effort int) (done bool) {
	j.pace.left, j.pace.wait = effort, j.wait
	defer func() { j.pace.wait = nil }()
	_, waits := j.next()
	return !waits
}

// Progress is how many of the things known to be needed are done: total may grow.
func (j *Job) Progress() (done, total int) { return j.pace.done, j.pace.total }

// Stop ends the computation where it waits.
func (j *Job) Stop() { j.stop() }
