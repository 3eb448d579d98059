package main

import (
	"fmt"
	"os"
	"slices"
	"syscall"
	"time"
)

// rounds is how often everything is measured; the median counts.
const rounds = 5

// A stopwatch tells how much processor time a process has used.
type stopwatch func() time.Duration

// own is the processor time of this process, its garbage collector included.
func own() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err) // the kernel does not know itself
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// of is the processor time of another process of one thread. Source: Linux,
// Documentation/scheduler/sched-stats.rst: first figure, in nanoseconds.
func of(pid int) stopwatch {
	name := fmt.Sprintf("/proc/%d/schedstat", pid)
	return func() (used time.Duration) {
		data, err := os.ReadFile(name)
		if err == nil {
			_, err = fmt.Sscan(string(data), &used)
		}
		if err != nil {
			panic(err) // it was started by us and is alive
		}
		return used
	}
}

// wall is the time on the wall.
func wall() time.Duration { return time.Since(began) }

var began = time.Now()

// A contender does something n times and is timed by its own watch.
type contender struct {
	watch stopwatch
	n     int
	do    func(n int) error
	tidy  func() error // before each round, not timed; may be nil
}

// least is how long one round of one contender lasts, unless n is given.
const least = 60 * time.Millisecond

// compete lets the contenders take turns and gives the median time of each for
// doing its thing once, and the median of the ratios of the first to each.
func compete(list ...contender) (each []time.Duration, ratio []float64, err error) {
	times := make([][]float64, len(list))
	ratios := make([][]float64, len(list))
	for i := range list {
		if err := list[i].calibrate(); err != nil {
			return nil, nil, err
		}
	}
	for range rounds {
		for i := range list {
			t, err := list[i].round()
			if err != nil {
				return nil, nil, err
			}
			times[i] = append(times[i], t)
		}
		for i := range list {
			last := len(times[i]) - 1
			ratios[i] = append(ratios[i], times[0][last]/times[i][last])
		}
	}
	for i := range list {
		each = append(each, time.Duration(median(times[i])))
		ratio = append(ratio, median(ratios[i]))
	}
	return each, ratio, nil
}

// round gives the nanoseconds of doing it once.
func (c *contender) round() (float64, error) {
	if c.tidy != nil {
		if err := c.tidy(); err != nil {
			return 0, err
		}
	}
	before := c.watch()
	err := c.do(c.n)
	return float64(c.watch()-before) / float64(c.n), err
}

// calibrate warms up and, where n is not given, finds one that lasts.
func (c *contender) calibrate() error {
	if c.n > 0 {
		return c.do(1)
	}
	for c.n = 1; ; c.n *= 2 {
		t, err := c.round()
		if err != nil || t*float64(c.n) >= float64(least) {
			return err
		}
	}
}

func median(list []float64) float64 {
	list = slices.Clone(list)
	slices.Sort(list)
	return list[len(list)/2]
}
