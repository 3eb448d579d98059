package main

import (
	"fmt"
	"os"
	"runtime"
	"strings"
	"time"
)

// A table is one part of what is printed.
type table struct {
	title string
	about string // what was measured, and what was left out
	head  []string
	rows  [][]string
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// verdict says whether a figure reaches its target.
func verdict(ok bool) string {
	if ok {
		return "reached"
	}
	return "**missed**"
}

func atLeast(got, want float64) []string {
	return []string{fmt.Sprintf("%.3g×", got), fmt.Sprintf("≥ %.0f×", want), verdict(got >= want)}
}

// short writes a duration with three digits.
func short(d time.Duration) string {
	switch s := d.Seconds(); {
	case s >= 1:
		return fmt.Sprintf("%.3g s", s)
	case s >= 1e-3:
		return fmt.Sprintf("%.3g ms", s*1e3)
	case s >= 1e-6:
		return fmt.Sprintf("%.3g µs", s*1e6)
	}
	return fmt.Sprintf("%d ns", d.Nanoseconds())
}

// text is the whole as Markdown, columns aligned.
func (b *bench) text(took time.Duration) string {
	var s strings.Builder
	fmt.Fprintf(&s, "# Figures of `make bench`\n\n%s. Seed %d. The run took %.0f s; load of the machine at its end %s.\n\n", machine(), b.seed, took.Seconds(), load())
	fmt.Fprintf(&s, "Medians of %d runs that alternate within one process; ratios are medians of ratios.\n", rounds)
	for _, t := range b.pages {
		fmt.Fprintf(&s, "\n## %s\n\n%s\n\n", t.title, t.about)
		rows := append([][]string{t.head}, t.rows...)
		wide := make([]int, len(t.head))
		for _, r := range rows {
			for i, c := range r {
				wide[i] = max(wide[i], len([]rune(c)))
			}
		}
		for n, r := range rows {
			for i, c := range r {
				fmt.Fprintf(&s, "| %s%s ", c, strings.Repeat(" ", wide[i]-len([]rune(c))))
			}
			s.WriteString("|\n")
			if n == 0 {
				for _, w := range wide {
					fmt.Fprintf(&s, "|%s", strings.Repeat("-", w+2))
				}
				s.WriteString("|\n")
			}
		}
	}
	return s.String()
}

// machine names the processor and the system.
func machine() string {
	cpu := "unknown processor"
	data, _ := os.ReadFile("/proc/cpuinfo")
	for line := range strings.Lines(string(data)) {
		if key, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(key) == "model name" {
			cpu = strings.TrimSpace(value)
			break
		}
	}
	release, _ := os.ReadFile("/proc/sys/kernel/osrelease")
	kernel, _, _ := strings.Cut(string(release), "-")
	return fmt.Sprintf("%s, %d cores (a virtual machine shared with other work); Linux %s, %s, %s", cpu, runtime.NumCPU(), strings.TrimSpace(kernel), runtime.Version(), spiceVersion())
}

func load() string {
	data, _ := os.ReadFile("/proc/loadavg")
	one, _, _ := strings.Cut(string(data), " ")
	return one
}
