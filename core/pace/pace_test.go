package pace_test

import (
	"fmt"
	"slices"
	"testing"

	"halfsplit/core/pace"
)

func ExampleStart() {
	var p pace.Pace
	sum := 0
	j := pace.Start(&p, func() {
		p.Expect(5)
		for k := range 5 {
			sum += k
			p.Did(1)
			p.Spend(10)
			p.Breathe()
		}
	})
	for !j.Next(20) {
		fmt.Println(j.Progress())
	}
	fmt.Println("sum", sum)
	// Output:
	// 2 5
	// 4 5
	// sum 10
}

// A computation that is stopped is unwound, what it deferred is done, and it goes no
// further; one that was never begun is not begun.
func TestStop(t *testing.T) {
	var p pace.Pace
	var did []string
	job := func() *pace.Job {
		return pace.Start(&p, func() {
			defer func() { did = append(did, "deferred") }()
			did = append(did, "first")
			p.Spend(1)
			p.Breathe()
			did = append(did, "second")
		})
	}
	j := job()
	if j.Next(1) {
		t.Fatal("done after a portion that was used up")
	}
	j.Stop()
	j.Stop()
	job().Stop()
	if want := []string{"first", "deferred"}; !slices.Equal(did, want) {
		t.Errorf("did %v, want %v", did, want)
	}
	p.Spend(1)
	p.Breathe() // nobody to wait for
}

// A job counts from nothing, whatever was done at its pace before.
func TestProgress(t *testing.T) {
	var p pace.Pace
	count := func() {
		p.Expect(2)
		for range 2 {
			p.Did(1)
			p.Spend(3)
			p.Breathe()
		}
	}
	for range 2 {
		j := pace.Start(&p, count)
		j.Next(1)
		if done, total := j.Progress(); done != 1 || total != 2 {
			t.Errorf("%d of %d, want 1 of 2", done, total)
		}
		j.Stop()
	}
}

// A panic of the computation itself reaches whoever asked for the portion.
func TestPanic(t *testing.T) {
	var p pace.Pace
	j := pace.Start(&p, func() { p.Spend(1); p.Breathe(); panic("out of range") })
	j.Next(1)
	defer func() {
		if r := recover(); r != "out of range" {
			t.Errorf("recovered %v", r)
		}
		j.Stop()
	}()
	j.Next(1)
}
