package main

import (
	"fmt"
	"io"
	"strings"

	"halfsplit/core/api"
)

// mostRefs bounds how many things one isolation may be asked for.
const mostRefs = 64

// runIsolate exits with exitNo when nothing in the panel isolates the target.
func runIsolate(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c, code, ok := start("isolate", args, mostRefs, stdin, stdout, stderr, nil)
	if !ok {
		return code
	}
	r, code := c.ask(api.OpIsolate, func(q *api.Request) { q.Refs = c.o.args })
	if r == nil {
		return code
	}
	is := r.Isolate
	code = exitDone
	if !is.Isolated {
		code = exitNo
	}
	if c.o.asJSON {
		c.json(is)
		return code
	}
	fmt.Fprintln(stdout, is.Text)
	for _, p := range is.Open {
		fmt.Fprintf(stdout, "  %s  [carries %.3f A]\n", p.How, p.Amps)
	}
	for _, p := range is.Instead {
		fmt.Fprintf(stdout, "  with less harm: %s", p.How)
		if p.First != "" {
			fmt.Fprintf(stdout, "; %s", p.First)
		}
		fmt.Fprintln(stdout)
	}
	for _, a := range is.AlsoDown {
		fmt.Fprintf(stdout, "also down: %s\n", a.Text)
		if a.Process != "" {
			fmt.Fprintf(stdout, "  the plant: %s\n", a.Process)
		}
	}
	for _, s := range is.Sources {
		fmt.Fprintf(stdout, "could still feed it: %s\n", s.Text)
	}
	for _, p := range is.Prove {
		fmt.Fprintf(stdout, "prove %s to %s: %s; before %s, after %s; %s\n", p.Red, p.Black, strings.Join(p.Modes, ", "), strings.Join(p.Before, ", "), strings.Join(p.After, ", "), p.Text)
	}
	for _, t := range is.Cautions {
		fmt.Fprintln(stdout, t.Text)
	}
	return code
}
