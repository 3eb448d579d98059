package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"strings"

	"halfsplit/core/sim"

	"halfsplit/core/fault"
)

// memory starts this program anew for each size, because a process never forgets
// the most it has taken.
func (b *bench) memory() error {
	t := table{title: "Memory, natively",
		about: "A process of its own: the panel drawn, assembled, brought to rest, and one what-if with its reasons. The most it held, as the kernel counts (VmHWM).",
		head:  []string{"terminals", "most", "wanted", ""}}
	self, err := os.Executable()
	if err != nil {
		return err
	}
	for _, size := range []int{5000, 20000} {
		var list []float64
		for range 3 { // it hardly varies
			cmd := exec.Command(self, "--memory", fmt.Sprint(size), "--seed", fmt.Sprint(b.seed))
			cmd.Stderr = os.Stderr
			out, err := cmd.Output()
			if err != nil {
				return err
			}
			var kilobytes float64
			if _, err := fmt.Sscan(string(bytes.TrimSpace(out)), &kilobytes); err != nil {
				return err
			}
			list = append(list, kilobytes/1000)
		}
		most, wanted, word := median(list), "", ""
		if size == 20000 {
			wanted, word = "< 600 MB", verdict(most < 600)
		}
		t.add(fmt.Sprint(size), fmt.Sprintf("%.0f MB", most), wanted, word)
	}
	b.pages = append(b.pages, t)
	return nil
}

// solveInMemory makes a panel answer once and gives the most memory this process
// has held, in thousands of bytes.
func solveInMemory(size int, seed uint64) int {
	s, err := newSubject(size, seed)
	if err != nil {
		panic(err) // generated panels can be solved
	}
	w := s.base.WhatIf([]*fault.Fault{s.sample(1)[0]}, sim.Running)
	if w.Err != nil {
		panic(w.Err)
	}
	data, err := os.ReadFile("/proc/self/status")
	if err != nil {
		panic(err) // not on Linux
	}
	for line := range strings.Lines(string(data)) {
		var kibibytes int
		if n, _ := fmt.Sscanf(line, "VmHWM: %d kB", &kibibytes); n == 1 {
			return kibibytes * 1024 / 1000
		}
	}
	panic("no VmHWM in /proc/self/status")
}
