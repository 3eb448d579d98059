package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"strings"

	"halfsplit/core/api"
)

// document starts a command about documents, which solves nothing: it takes
// --json and what more adds. extra is how many further documents must follow.
func document(name string, args []string, extra int, stdin io.Reader, stdout, stderr io.Writer, more func(*flag.FlagSet)) (c *call, code int, ok bool) {
	o := &options{flags: flag.NewFlagSet("halfsplit "+name, flag.ContinueOnError)}
	o.flags.SetOutput(stderr)
	o.flags.BoolVar(&o.asJSON, "json", false, "answer in JSON")
	if more != nil {
		more(o.flags)
	}
	c = &call{o: o, stdin: stdin, stdout: stdout, stderr: stderr}
	err := o.parse(args, extra)
	if err == nil && len(o.args) < extra {
		err = errFile
	}
	switch {
	case errors.Is(err, flag.ErrHelp):
		return c, exitDone, false
	case err != nil:
		fmt.Fprintf(stderr, "halfsplit %s: %v\n", name, err)
		return c, exitBad, false
	}
	return c, exitDone, true
}

// text is what stands in a file, or in a demo panel.
func (c *call) text(file string) (string, bool) {
	o := options{file: file}
	req, err := o.request(c.stdin)
	if err == nil && req.Demo != "" {
		data, known := api.Demo(req.Demo)
		if !known {
			err = fmt.Errorf("there is no demo panel %s", req.Demo)
		}
		req.Text = string(data)
	}
	if err != nil {
		fmt.Fprintf(c.stderr, "halfsplit: %v\n", err)
	}
	return req.Text, err == nil
}

// do asks the core something that needs no open panel. resp is nil when it fails,
// and code then the exit code.
func (c *call) do(req api.Request) (resp *api.Response, code int) {
	req.Name = c.o.file
	r := api.NewHost().Do(req)
	if r.Error != nil {
		return nil, c.fail(r.Error)
	}
	return &r, exitDone
}

func runDiff(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c, code, ok := document("diff", args, 1, stdin, stdout, stderr, nil)
	if !ok {
		return code
	}
	a, okA := c.text(c.o.file)
	b, okB := c.text(c.o.args[0])
	if !okA || !okB {
		return exitBad
	}
	r, code := c.do(api.Request{Op: api.OpDiff, Text: a, Other: b})
	if r == nil {
		return code
	}
	if c.o.asJSON {
		c.json(r.Diff)
	} else {
		for _, d := range r.Diff.Differences {
			fmt.Fprintln(stdout, d.Text.Text)
		}
	}
	if !r.Diff.Same {
		return exitNo
	}
	return exitDone
}

// runMerge writes the merged document; what is still to be decided goes beside it
// and makes the exit code exitNo.
func runMerge(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	var base string
	var take many
	c, code, ok := document("merge", args, 1, stdin, stdout, stderr, func(f *flag.FlagSet) {
		f.StringVar(&base, "base", "", "the document both came from")
		f.Var(&take, "take", "PATH=ours, theirs or both: which side of a conflict stands; may be repeated")
	})
	if !ok {
		return code
	}
	req := api.Request{Op: api.OpMerge, Choices: map[string]string{}}
	for _, t := range take {
		i := strings.LastIndexByte(t, '=')
		if i < 0 {
			fmt.Fprintf(stderr, "halfsplit merge: %q is not PATH=ours, PATH=theirs or PATH=both\n", t)
			return exitBad
		}
		req.Choices[t[:i]] = t[i+1:]
	}
	for _, file := range []struct {
		into *string
		name string
	}{{&req.Text, c.o.file}, {&req.Other, c.o.args[0]}, {&req.Base, base}} {
		if file.name == "" {
			continue
		}
		var read bool
		if *file.into, read = c.text(file.name); !read {
			return exitBad
		}
	}
	r, code := c.do(req)
	if r == nil {
		return code
	}
	m := r.Merge
	if c.o.asJSON {
		c.json(m)
	} else {
		fmt.Fprint(stdout, m.Document)
		for _, x := range m.Conflicts {
			if !x.Chosen {
				fmt.Fprintf(stderr, "%s  [%s stands; --take %s=ours|theirs]\n", x.Text.Text, x.Taken, x.Path)
			}
		}
	}
	if m.Open > 0 {
		return exitNo
	}
	return exitDone
}

func runPack(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	size := 0
	c, code, ok := document("pack", args, 0, stdin, stdout, stderr, func(f *flag.FlagSet) {
		f.IntVar(&size, "codes", 0, "as texts of QR codes of at most so many characters, one a line")
	})
	if !ok {
		return code
	}
	text, ok := c.text(c.o.file)
	if !ok {
		return exitBad
	}
	r, code := c.do(api.Request{Op: api.OpPack, Text: text, Size: size})
	switch {
	case r == nil:
		return code
	case c.o.asJSON:
		c.json(r.Packed)
	case size > 0:
		for _, p := range r.Packed.Parts {
			fmt.Fprintln(stdout, p)
		}
	default:
		fmt.Fprintln(stdout, r.Packed.Link)
	}
	return exitDone
}

func runUnpack(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	c, code, ok := document("unpack", args, 0, stdin, stdout, stderr, nil)
	if !ok {
		return code
	}
	text, ok := c.text(c.o.file)
	if !ok {
		return exitBad
	}
	r, code := c.do(api.Request{Op: api.OpUnpack, Text: text})
	if r == nil {
		return code
	}
	u := r.Unpacked
	if c.o.asJSON {
		c.json(u)
	}
	if u.Document == "" {
		fmt.Fprintf(stderr, "halfsplit: %s\n", u.Text.Text)
		return exitNo
	}
	if !c.o.asJSON {
		fmt.Fprint(stdout, u.Document)
	}
	return exitDone
}

// runRecord exits with exitNo while a temporary change is still in place.
func runRecord(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	var req api.Request
	c, code, ok := document("record", args, 0, stdin, stdout, stderr, func(f *flag.FlagSet) {
		f.StringVar(&req.As, "as", "text", "text, csv or html")
		f.StringVar(&req.Paper, "paper", "A4", "A4 or letter, for html")
	})
	if !ok {
		return code
	}
	if req.Text, ok = c.text(c.o.file); !ok {
		return exitBad
	}
	req.Op = api.OpRecord
	r, code := c.do(req)
	if r == nil {
		return code
	}
	if c.o.asJSON {
		c.json(r.Record)
	} else {
		fmt.Fprint(stdout, r.Record.Content)
	}
	for _, t := range r.Record.Open {
		fmt.Fprintf(stderr, "halfsplit: %s\n", t.Text)
	}
	if len(r.Record.Open) > 0 {
		return exitNo
	}
	return exitDone
}
