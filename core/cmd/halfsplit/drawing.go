package main

import (
	"fmt"
	"io"

	"halfsplit/core/api"
	"halfsplit/core/generate"
	"halfsplit/core/panel"
)

func runPanels(_ []string, _ io.Reader, stdout, _ io.Writer) int {
	for _, name := range api.Demos() {
		fmt.Fprintln(stdout, name)
	}
	return exitDone
}

func runCheck(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c, code, ok := start("check", args, 0, stdin, stdout, stderr, nil)
	if !ok {
		return code
	}
	r, code := c.ask(api.OpCheck, nil)
	if r == nil {
		return code
	}
	if c.o.asJSON {
		c.json(r.Problems)
	} else {
		for _, p := range r.Problems.Problems {
			printProblem(stdout, c.o.file, p)
		}
		fmt.Fprintf(stdout, "%d errors, %d warnings, %d notes\n", r.Problems.Errors, r.Problems.Warnings, r.Problems.Notes)
	}
	if r.Problems.Errors > 0 {
		return exitNo
	}
	return exitDone
}

func printProblem(w io.Writer, file string, p api.Problem) {
	fmt.Fprintf(w, "%s:%d:%d: %s: %s\n", file, p.Line, p.Col, p.Severity, p.Text.Text)
	if p.Hint != "" {
		fmt.Fprintf(w, "  hint: %s\n", p.Hint)
	}
}

func runFaults(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c, code, ok := start("faults", args, 0, stdin, stdout, stderr, nil)
	if !ok {
		return code
	}
	r, code := c.ask(api.OpFaults, nil)
	if r == nil {
		return code
	}
	if c.o.asJSON {
		c.json(r.Faults.Faults)
		return exitDone
	}
	for _, f := range r.Faults.Faults {
		fmt.Fprintf(stdout, "%-44s %s\n", f.Fault, f.Name)
	}
	return exitDone
}

func runGenerate(args []string, _ io.Reader, stdout, stderr io.Writer) int {
	o := newOptions("generate", stderr)
	terminals := o.flags.Int("terminals", 100, "how many terminal blocks")
	seed := o.flags.Uint64("seed", 1, "another seed, another panel")
	if err := o.flags.Parse(args); err != nil {
		return exitBad
	}
	if *terminals < generate.Least || *terminals > generate.Most || o.flags.NArg() > 0 {
		fmt.Fprintf(stderr, "halfsplit generate: --terminals takes %d to %d\n", generate.Least, generate.Most)
		return exitBad
	}
	stdout.Write(panel.Write(generate.Generate(*terminals, *seed)))
	return exitDone
}
