package main

import (
	"fmt"
	"os/exec"
	"strconv"
	"strings"
	"time"
)

// rankings runs the benchmark of package diagnose, which sees what it ranks.
func (b *bench) rankings() error {
	out, err := exec.Command("go", "test", "-run", "^$", "-bench", "^BenchmarkRanking$", "-benchtime", "50ms", "-cpu", "1",
		"-count", fmt.Sprint(rounds), "./core/diagnose", "-ranked-seed", fmt.Sprint(b.seed)).CombinedOutput()
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
		about: "All steps weighed of what the search is about: the whole panel, or what a dead device depends on. A change is an outcome of a step that one fault still suspected makes differ from the sound panel's by more than a tenth of sigma. The table that ranking walks is made once a complaint. Processor time.",
		head:  []string{"panel", "observed", "faults", "steps", "changes", "ranking", "each change", "making the table, each", "wanted", ""}}
	for _, name := range panels {
		of := func(unit string) float64 { return median(figures[name][unit]) }
		title, observed, _ := strings.Cut(name, "/")
		if _, err := strconv.Atoi(title); err == nil {
			title += " terminals"
		}
		observed = map[string]string{"nothing": "nothing", "dead": "one device dead"}[observed]
		each := of("ns/change")
		t.add(title, observed, fmt.Sprint(of("faults")), fmt.Sprint(of("steps")), fmt.Sprintf("%.0f", of("changes")),
			short(time.Duration(of("cpu-ns/op"))), fmt.Sprintf("%.3g ns", each), fmt.Sprintf("%.3g ns", of("table-ns/change")), "≤ 10 ns", verdict(each <= 10))
	}
	b.pages = append(b.pages, t)
	return nil
}
