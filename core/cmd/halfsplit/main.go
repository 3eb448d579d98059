// Command halfsplit traces faults in control panels from a terminal, and
// serves the phone page. It translates: every answer comes from core/api.
package main

import (
	"fmt"
	"io"
	"os"
	"sort"
	"strings"
)

// Exit codes.
const (
	exitDone = 0 // the answer was given
	exitNo   = 1 // the answer is "no": check found errors, nothing explains the readings
	exitBad  = 2 // bad usage or unreadable input
)

// A command is one word after halfsplit.
type command struct {
	usage string
	run   func(args []string, stdin io.Reader, stdout, stderr io.Writer) int
}

var commands = map[string]command{}

func init() {
	commands = map[string]command{
		"panels":   {"panels                       embedded demo panels", runPanels},
		"check":    {"check    FILE                every problem with its place and remedy", runCheck},
		"faults":   {"faults   FILE                every single fault the model knows", runFaults},
		"state":    {"state    FILE                every point's voltage, every device's state", runState},
		"whatif":   {"whatif   FILE --fault F ...  who is affected, how and why", runWhatIf},
		"sweep":    {"sweep    FILE                what-if of every single fault", runSweep},
		"meter":    {"meter    FILE --mode M --red P --black P [--load] [--my-meter KEY=VALUE] [--each FAULT]", runMeter},
		"isolate":  {"isolate  FILE REF ...        what to open to work on these, and where to prove it dead", runIsolate},
		"find":     {"find     FILE [--dead REF] [--works REF] [--sees REF=STATE] [--reading R] [--observed JSON] [--all]", runFind},
		"generate": {"generate --terminals N --seed S", runGenerate},
		"diff":     {"diff     FILE FILE           in what two panels, drills or jobs differ", runDiff},
		"merge":    {"merge    OURS THEIRS [--base FILE] [--take PATH=ours|theirs|both]", runMerge},
		"pack":     {"pack     FILE [--codes CHARS] as a link, or as texts for QR codes", runPack},
		"unpack":   {"unpack   FILE                a document from a link or from codes, one a line", runUnpack},
		"record":   {"record   JOB [--as text|csv|html] [--paper A4|letter]", runRecord},
		"drill":    {"drill    FILE [--seed N] [--difficulty] [--short FORM]   a hidden fault, a meter, a debrief", runDrill},
		"serve":    {"serve    [--addr :8420] [--data DIR]", runServe},
	}
}

func main() { os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr)) }

func run(args []string, stdin io.Reader, stdout, stderr io.Writer) int {
	if len(args) == 0 || args[0] == "help" || args[0] == "--help" || args[0] == "-h" {
		usage(stdout)
		return exitDone
	}
	c, ok := commands[args[0]]
	if !ok {
		fmt.Fprintf(stderr, "halfsplit: there is no command %s\n", args[0])
		usage(stderr)
		return exitBad
	}
	return c.run(args[1:], stdin, stdout, stderr)
}

func usage(w io.Writer) {
	names := make([]string, 0, len(commands))
	for n := range commands {
		names = append(names, n)
	}
	sort.Strings(names)
	var lines []string
	for _, n := range names {
		lines = append(lines, "  halfsplit "+commands[n].usage)
	}
	fmt.Fprintf(w, `usage:
%s

FILE is a panel document, "-" for standard input, or demo:NAME.
Solving commands take --at "CONDITION[; press S2; release S2]", --onset running|start,
--fault THING=MODE (may be repeated), and --json.
`, strings.Join(lines, "\n"))
}

func runServe(args []string, _ io.Reader, stdout, stderr io.Writer) int {
	return serve(args, stdout, stderr)
}
