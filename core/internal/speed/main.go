// Command speed measures the core and prints one table: against ngspice on the
// same circuits, by the size of the panel, and in a browser. "make bench" runs it.
//
//	go run ./core/internal/speed [--seed N] [--only SECTION] [--out FILE]
//
// Every figure is the median of five runs; where two programs are compared the
// runs alternate within this process and each is told as a ratio, because a
// machine has good and bad minutes. Nothing here is a test: a slow machine fails
// nothing. What does fail is an answer that differs from ngspice's.
package main

import (
	"cmp"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"runtime"
	"strings"
	"time"
)

// A bench is one run of this program.
type bench struct {
	seed  uint64
	log   func(format string, args ...any)
	pages []table
}

func main() {
	seed := flag.Uint64("seed", 0, "of the generated panels; 0: chosen now")
	only := flag.String("only", "", "one section: "+strings.Join(sectionNames(), ", "))
	out := flag.String("out", "", "also write the table, as Markdown, to this file")
	memory := flag.Int("memory", 0, "only tell the memory that a panel of so many terminals takes")
	flag.Parse()
	*seed = cmp.Or(*seed, 1+rand.Uint64N(1e6))
	if *memory > 0 {
		fmt.Println(solveInMemory(*memory, *seed))
		return
	}
	// One thread of ours against one of theirs, and against a browser's one.
	runtime.GOMAXPROCS(1)
	b := &bench{seed: *seed, log: func(format string, args ...any) { fmt.Fprintf(os.Stderr, format+"\n", args...) }}
	start := time.Now()
	for _, p := range sections {
		if *only != "" && *only != p.name {
			continue
		}
		b.log("%s ...", p.name)
		if err := p.run(b); err != nil {
			fmt.Fprintf(os.Stderr, "speed: %s: %v\n", p.name, err)
			os.Exit(1)
		}
	}
	text := b.text(time.Since(start))
	fmt.Print(text)
	if *out != "" {
		if err := os.WriteFile(*out, []byte(text), 0o644); err != nil {
			fmt.Fprintln(os.Stderr, "speed:", err)
			os.Exit(1)
		}
	}
}

// sections of the run, in the order of the table.
var sections = []struct {
	name string
	run  func(*bench) error
}{
	{"ngspice", (*bench).againstSpice},
	{"ranking", (*bench).rankings},
	{"memory", (*bench).memory},
	{"size", (*bench).bySize},
	{"browser", (*bench).browser},
	{"search", (*bench).searches},
}

func sectionNames() []string {
	var list []string
	for _, p := range sections {
		list = append(list, p.name)
	}
	return list
}
