package main

import (
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"time"
)

// rankings runs the benchmark of package diagnose, which sees what it ranks.
func (b *bench) rankings() error {
	out, err := exec.Command("go", "test", "-run", "^$", "-bench", "^BenchmarkRanking$", "-benchtime", "50ms", "-cpu", "1",
		"-count", fmt.Sprint(rounds), "./core/diagnose", "-ranked-seed", fmt.Sprint(b.seed), "-ranked-most", "1000").CombinedOutput()
	if err != nil {
		return fmt.Errorf("%w\n%s", err, out)
	}
	figures := map[string]map[string][]float64{}
	var panels []string
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		if len(f) == 0 || !strings.HasPrefix(f[0], "BenchmarkRanking/") {
			continue
		}
		name := strings.TrimPrefix(f[0], "BenchmarkRanking/")
		if figures[name] == nil {
			figures[name] = map[string][]float64{}
			panels = append(panels, name)
		}
		for i := 2; i+1 < len(f); i += 2 {
			v, err := strconv.ParseFloat(f[i], 64)
			if err != nil {
				return fmt.Errorf("%q: %w", line, err)
			}
			figures[name][f[i+1]] = append(figures[name][f[i+1]], v)
		}
	}
	if len(panels) == 0 {
		return fmt.Errorf("no figures in\n%s", out)
	}
	t := table{title: "Ranking the next readings",
		about: "All steps weighed of what the search is about: the whole panel, or what a dead device depends on. A change is an outcome of a step that one fault still suspected makes differ from the sound panel's by more than a tenth of sigma. The table that ranking walks is made once a complaint. The last line is the exponent of the size for one dead device, by least squares on the logarithms: what a device depends on is not the same share of every panel. Processor time.",
		head:  []string{"panel", "observed", "faults", "steps", "changes", "ranking", "each change", "making the table, each", "wanted", ""}}
	var sizes, times []float64
	for _, name := range panels {
		of := func(unit string) float64 { return median(figures[name][unit]) }
		title, observed, _ := strings.Cut(name, "/")
		if size, err := strconv.Atoi(title); err == nil {
			title += " terminals"
			if observed == "dead" {
				sizes, times = append(sizes, math.Log(float64(size))), append(times, math.Log(of("cpu-ns/op")))
			}
		}
		observed = map[string]string{"nothing": "nothing", "dead": "one device dead"}[observed]
		each := of("ns/change")
		t.add(title, observed, fmt.Sprint(of("faults")), fmt.Sprint(of("steps")), fmt.Sprintf("%.0f", of("changes")),
			short(time.Duration(of("cpu-ns/op"))), fmt.Sprintf("%.3g ns", each), fmt.Sprintf("%.3g ns", of("table-ns/change")), "≤ 10 ns", verdict(each <= 10))
	}
	t.add("exponent", "one device dead", "", "", "", fmt.Sprintf("%.2f", slope(sizes, times)), "", "", "", "")
	b.pages = append(b.pages, t)
	return nil
}
