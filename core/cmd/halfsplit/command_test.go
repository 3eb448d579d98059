package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// halfsplit runs the command as a shell would.
func halfsplit(stdin string, args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(args, strings.NewReader(stdin), &out, &err)
	return code, out.String(), err.String()
}

// Exit codes: 0 done, 1 the answer is "no", 2 bad usage or unreadable input with
// what is wrong and how to mend it.
func TestExitCodes(t *testing.T) {
	for _, tc := range []struct {
		args string
		code int
		says string // on either stream
	}{
		{"panels", 0, "training-bench"},
		{"help", 0, "usage:"},
		{"sing", 2, "there is no command sing"},
		{"state", 2, "name a panel document"},
		{"state demo:training-bench", 0, "X1:1/in"},
		{"state demo:training-bnch", 2, "training-bench"},
		{"state no-such-file.json", 2, "no-such-file.json"},
		{"state demo:training-bench --at sunday", 2, "stopped"},
		{"state demo:training-bench extra", 2, "too much"},
		{"check demo:dosing-skid", 0, "0 errors"},
		{"faults demo:training-bench", 0, "X1:2=fuse-blown"},
		{"whatif demo:training-bench --fault X1:2=fuse-blown", 0, "P1 is dead"},
		{"whatif demo:training-bench --fault X1:2=melted", 2, "lever-open"},
		{"meter demo:training-bench --mode vdc --red K1:A1 --black X2:1", 0, "23.99 V"},
		{"meter demo:training-bench --mode vdc --red X1:1 --black X2:1", 2, "X1:1/in"},
		{"meter demo:training-bench --mode ohms --red K1:A1 --black X2:1", 0, "refused"},
		{"meter demo:training-bench --mode tester --load --red K1:A1 --black K1:A2", 0, "23.99 V"},
		{"meter demo:training-bench --mode ma --red X1:2", 0, "19.97 mA"},
		{"meter demo:training-bench --mode ma --red X1:1/out --black X2:1", 0, "blow the 500 mA fuse"},
		{"meter demo:training-bench --mode ma --red K1", 2, "wire end"},
		{"meter demo:training-bench --mode vdc --my-meter input_ohms=1 --red K1:A1 --black K1:A2", 2, "must lie between"},
		{"meter demo:training-bench --mode vdc --my-meter input_ohms --red K1:A1 --black K1:A2", 2, "KEY=VALUE"},
		{"meter demo:training-bench --mode vdc --my-meter ohms=1 --red K1:A1 --black K1:A2", 2, "lowz_ohms"},
		{"meter demo:training-bench --red P1:X1 --black P1:X2 --each X1:2", 0, "X1:2=fuse-blown"},
		{"isolate demo:training-bench P1", 0, "Open X1:2"},
		{"isolate demo:training-bench W5", 1, "protective conductor"},
		{"isolate demo:training-bench", 2, "name what is to be worked on"},
		{"isolate demo:training-bench P9", 2, "did you mean"},
		{"find demo:training-bench --dead P1", 0, "Next:"},
		{"find demo:training-bench --dead P2", 2, "stopped"},
		{"find demo:training-bench --sees P1", 2, "REF=STATE"},
		{"generate --terminals 5", 2, "--terminals"},
		{"drill demo:run-lamp-dark --difficulty", 0, "best plan"},
		{"drill demo:run-lamp-drak", 2, "run-lamp-dark"},
		{"drill demo:run-lamp-dark --acts {", 2, "--acts"},
		{"drill demo:training-bench --short sort", 2, "possible, predict, choose"},
	} {
		code, out, err := halfsplit("", strings.Fields(tc.args)...)
		if code != tc.code || !strings.Contains(out+err, tc.says) {
			t.Errorf("halfsplit %s: exit %d, want %d with %q\n%s%s", tc.args, code, tc.code, tc.says, out, err)
		}
	}
	code, out, _ := halfsplit("", "find", "demo:training-bench", "--dead", "P1", "--reading", "vdc X1:1/in X2:1 11", "--reading", "vdc X1:2/in X2:1 17")
	if code != 1 || !strings.Contains(out, "disagrees most") {
		t.Errorf("readings nothing explains: exit %d, want 1\n%s", code, out)
	}
	if code, _, _ := halfsplit("{}", "check", "-"); code != 1 && code != 2 {
		t.Errorf("check of an empty document: exit %d", code)
	}
}

// --json answers with the keys scripts rely on.
func TestJSONKeys(t *testing.T) {
	for _, tc := range []struct {
		args []string
		keys []string
	}{
		{[]string{"state", "demo:training-bench", "--json"}, []string{"points", "devices", "flags"}},
		{[]string{"whatif", "demo:training-bench", "--fault", "X1:2=fuse-blown", "--json"}, []string{"affected", "timeline"}},
		{[]string{"meter", "demo:training-bench", "--mode", "vdc", "--red", "K1:A1", "--black", "X2:1", "--json"}, []string{"mode", "red", "black", "value", "unit", "shown", "overload", "disturbs"}},
		{[]string{"find", "demo:training-bench", "--dead", "P1", "--json"}, []string{"status", "suspects", "next"}},
	} {
		code, out, err := halfsplit("", tc.args...)
		var got map[string]any
		if e := json.Unmarshal([]byte(out), &got); code != 0 || e != nil {
			t.Errorf("%v: exit %d, %v %s", tc.args, code, e, err)
			continue
		}
		for _, k := range tc.keys {
			if _, ok := got[k]; !ok {
				t.Errorf("%v: no key %q in %s", tc.args, k, out[:min(len(out), 200)])
			}
		}
	}
	code, out, _ := halfsplit("", "sweep", "demo:training-bench", "--json")
	var rows []struct {
		Fault    string
		Affected []struct{ Ref, Effect string }
	}
	if err := json.Unmarshal([]byte(out), &rows); code != 0 || err != nil || len(rows) < 100 {
		t.Fatalf("sweep: exit %d, %v, %d rows", code, err, len(rows))
	}
	i := slices.IndexFunc(rows, func(r struct {
		Fault    string
		Affected []struct{ Ref, Effect string }
	}) bool {
		return r.Fault == "X1:2=fuse-blown"
	})
	if i < 0 || len(rows[i].Affected) != 1 || rows[i].Affected[0].Ref != "P1" || rows[i].Affected[0].Effect != "dead" {
		t.Errorf("sweep tells %+v of X1:2=fuse-blown, want P1 dead", rows[max(i, 0)])
	}
}

// What generate writes, every other command reads, from a file and from standard
// input alike.
func TestGeneratedPanelIsRead(t *testing.T) {
	code, doc, err := halfsplit("", "generate", "--terminals", "40", "--seed", "7")
	if code != 0 {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "panel.json")
	if err := os.WriteFile(file, []byte(doc), 0o600); err != nil {
		t.Fatal(err)
	}
	_, fromFile, _ := halfsplit("", "state", file)
	code, fromStdin, err := halfsplit(doc, "state", "-")
	if code != 0 || fromFile != fromStdin || !strings.Contains(fromFile, "V DC") {
		t.Errorf("exit %d, %s; file and standard input differ or are empty", code, err)
	}
}

func TestParseReading(t *testing.T) {
	r, err := parseReading("vdc W12@X1:4/out X2:1 24,1@press S2")
	if err != nil || r.Red != "W12@X1:4/out" || r.Value == nil || *r.Value != 24.1 || r.At != "press S2" {
		t.Errorf("%+v, %v", r, err)
	}
	if r, err := parseReading("ohms A:1 B:2 OL@power-off"); err != nil || r.Value != nil || r.Shown != "OL" {
		t.Errorf("%+v, %v", r, err)
	}
	for _, s := range []string{"", "vdc A:1 B:2", "vdc A:1 B:2 lots"} {
		if _, err := parseReading(s); err == nil {
			t.Errorf("parseReading(%q): no error", s)
		}
	}
}

// A drill in the terminal: typed acts, a number from the list, one that is refused,
// and the debrief at the end; the same acts in JSON give the same log.
func TestDrillInTheTerminal(t *testing.T) {
	talk := strings.Join([]string{"?", "look P1", "vdc K1:24 X2:1", "vdc K1:24 X2:1 feed", "3", "vdc", "P1:X1", "X2:1", "half-split",
		"press S1", "release S1", "dance", "call W17 open", "done"}, "\n")
	code, out, err := halfsplit(talk, "drill", "demo:run-lamp-dark")
	if code != 0 {
		t.Fatalf("exit %d: %s", code, err)
	}
	for _, want := range []string{"does not come on", "say first why", "24.00 V", "0.00 V", "nobody can do dance", "wire W17 is broken inside", "The best plan", "--seed 1"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	acts := `[{"kind":"look","thing":"P1"},{"kind":"read","mode":"vdc","red":"K1:24","black":"X2:1","why":"feed"}]`
	code, out, err = halfsplit("", "drill", "demo:run-lamp-dark", "--json", "--acts", acts)
	if code != 0 || !strings.Contains(out, `"shown": "24.00 V"`) {
		t.Errorf("exit %d, %s\n%s", code, err, out)
	}
	code, out, err = halfsplit("", "drill", "demo:run-lamp-dark", "--json", "--debrief", "--acts", acts)
	if code != 0 || !strings.Contains(out, `"result": "not-found"`) {
		t.Errorf("exit %d, %s\n%s", code, err, out)
	}
}

// A short exercise in the terminal is marked line by line.
func TestShortInTheTerminal(t *testing.T) {
	code, out, err := halfsplit("p\np\np\ni\ni\ni\n", "drill", "demo:training-bench", "--short", "possible", "--seed", "3")
	if code != 0 || !strings.Contains(out, "of 6. It was:") {
		t.Errorf("exit %d, %s\n%s", code, err, out)
	}
}
