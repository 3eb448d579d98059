package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"halfsplit/core/api"
)

// many is a flag that may be given again and again.
type many []string

func (m *many) String() string { return strings.Join(*m, ", ") }

func (m *many) Set(s string) error {
	*m = append(*m, s)
	return nil
}

// options are what every solving command takes.
type options struct {
	flags  *flag.FlagSet
	file   string
	args   []string // after FILE
	asJSON bool
	at     string
	onset  string
	faults many
}

func newOptions(name string, stderr io.Writer) *options {
	o := &options{flags: flag.NewFlagSet("halfsplit "+name, flag.ContinueOnError)}
	o.flags.SetOutput(stderr)
	o.flags.BoolVar(&o.asJSON, "json", false, "answer in JSON")
	o.flags.StringVar(&o.at, "at", "", "condition and further steps: \"normal; press S2\"")
	o.flags.StringVar(&o.onset, "onset", "", "running (when not given) or start: when the fault came")
	o.flags.Var(&o.faults, "fault", "a fault in place, THING=MODE; may be repeated")
	return o
}

var errFile = errors.New("name a panel document, \"-\" for standard input, or demo:NAME")

// parse reads FILE and flags in any order; extra is how many words may follow
// FILE.
func (o *options) parse(args []string, extra int) error {
	var words []string
	for len(args) > 0 {
		if err := o.flags.Parse(args); err != nil {
			return err
		}
		args = o.flags.Args()
		if len(args) > 0 {
			words = append(words, args[0])
			args = args[1:]
		}
	}
	if len(words) == 0 {
		return errFile
	}
	if len(words) > 1+extra {
		return fmt.Errorf("%q is too much", words[1+extra])
	}
	o.file, o.args = words[0], words[1:]
	return nil
}

// request starts a request of the panel the person named.
func (o *options) request(stdin io.Reader) (api.Request, error) {
	req := api.Request{Name: o.file, At: o.at, Onset: o.onset, Faults: o.faults}
	if demo, ok := strings.CutPrefix(o.file, "demo:"); ok {
		req.Demo = demo
		return req, nil
	}
	var data []byte
	var err error
	if o.file == "-" {
		data, err = io.ReadAll(stdin)
	} else {
		data, err = os.ReadFile(o.file)
	}
	req.Text = string(data)
	return req, err
}

// A call is a command that asks the core one thing about one panel.
type call struct {
	o      *options
	stdin  io.Reader
	stdout io.Writer
	stderr io.Writer
}

// ask opens the panel and asks. code is the exit code when resp is nil.
func (c *call) ask(op string, fill func(*api.Request)) (resp *api.Response, code int) {
	req, err := c.o.request(c.stdin)
	if err != nil {
		fmt.Fprintf(c.stderr, "halfsplit: %v\n", err)
		return nil, exitBad
	}
	h := api.NewHost()
	if op != api.OpCheck {
		open := req
		open.Op = api.OpOpen
		r := h.Do(open)
		if r.Error != nil {
			return nil, c.fail(r.Error)
		}
		req.Session = r.Opened.Session
		req.Text, req.Demo = "", ""
	}
	req.Op = op
	if fill != nil {
		fill(&req)
	}
	r := h.Do(req)
	if r.Error != nil {
		return nil, c.fail(r.Error)
	}
	return &r, exitDone
}

// fail tells an error with its remedy.
func (c *call) fail(e *api.Error) int {
	if c.o.asJSON {
		c.json(e)
	}
	fmt.Fprintf(c.stderr, "halfsplit: %s\n", e.Text.Text)
	for _, p := range e.Problems {
		if p.Severity == "error" {
			printProblem(c.stderr, c.o.file, p)
		}
	}
	if e.Hint != "" {
		fmt.Fprintf(c.stderr, "  hint: %s\n", e.Hint)
	}
	return exitBad
}

func (c *call) json(v any) {
	enc := json.NewEncoder(c.stdout)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	_ = enc.Encode(v) // a closed pipe is the reader's business
}

// start parses the words of a command; ok is false when the exit code is code.
func start(name string, args []string, extra int, stdin io.Reader, stdout, stderr io.Writer, more func(*options)) (c *call, code int, ok bool) {
	o := newOptions(name, stderr)
	if more != nil {
		more(o)
	}
	c = &call{o: o, stdin: stdin, stdout: stdout, stderr: stderr}
	if err := o.parse(args, extra); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return c, exitDone, false
		}
		fmt.Fprintf(stderr, "halfsplit %s: %v\n", name, err)
		return c, exitBad, false
	}
	return c, exitDone, true
}
