package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func write(t *testing.T, name, text string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// What is packed on one shell comes back on another, whole, by link and by codes.
func TestPackAndUnpack(t *testing.T) {
	want, err := os.ReadFile("../../../scenarios/training-bench.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, how := range [][]string{nil, {"--codes", "300"}} {
		code, packed, _ := halfsplit("", append([]string{"pack", "demo:training-bench"}, how...)...)
		if code != exitDone {
			t.Fatal(packed)
		}
		if code, got, errs := halfsplit(packed, "unpack", "-"); code != exitDone || got != string(want) {
			t.Errorf("%v: exit %d, %s", how, code, errs)
		}
		first, _, several := strings.Cut(packed, "\n")
		if len(how) > 0 && several {
			if code, got, errs := halfsplit(first, "unpack", "-"); code != exitNo || got != "" || !strings.Contains(errs, "codes are missing: 2") {
				t.Errorf("one code of several: exit %d, %q %q", code, got, errs)
			}
		}
	}
}

func TestDiffAndMerge(t *testing.T) {
	const base = `{"format":"halfsplit-panel","version":1,"name":"x","wires":[{"no":"W1","from":"A1:0","to":"B1:+"}]}`
	o := write(t, "o.json", base)
	a := write(t, "a.json", strings.Replace(base, `"B1:+"`, `"B1:-"`, 1))
	b := write(t, "b.json", strings.Replace(strings.Replace(base, `"B1:+"`, `"B2:+"`, 1), `"x"`, `"y"`, 1))
	if code, out, _ := halfsplit("", "diff", o, a); code != exitNo || out != "wire W1, to: B1:- instead of B1:+\n" {
		t.Errorf("diff: exit %d, %s", code, out)
	}
	if code, out, _ := halfsplit("", "diff", o, o); code != exitDone || out != "" {
		t.Errorf("diff of a file with itself: exit %d, %s", code, out)
	}
	code, out, errs := halfsplit("", "merge", a, b, "--base", o)
	if code != exitNo || !strings.Contains(out, `"name": "y"`) || !strings.Contains(out, "B1:-") ||
		!strings.Contains(errs, "wire W1, to: here B1:-; there B2:+; before B1:+  [ours stands; --take /wires/W1/to=ours|theirs]") {
		t.Errorf("merge: exit %d\n%s\n%s", code, out, errs)
	}
	if code, out, errs = halfsplit("", "merge", a, b, "--base", o, "--take", "/wires/W1/to=theirs"); code != exitDone || !strings.Contains(out, "B2:+") || errs != "" {
		t.Errorf("merge with a choice: exit %d\n%s\n%s", code, out, errs)
	}
	if code, _, errs = halfsplit("", "merge", a, b, "--take", "theirs"); code != exitBad || !strings.Contains(errs, "PATH=ours") {
		t.Errorf("a choice without a path: exit %d %s", code, errs)
	}
	for _, args := range [][]string{{"diff", o}, {"merge", o}, {"diff", o, "no-such-file"}, {"unpack", o, o}, {"pack"}} {
		if code, _, errs := halfsplit("", args...); code != exitBad || errs == "" {
			t.Errorf("%v: exit %d %q", args, code, errs)
		}
	}
}

func TestRecordCommand(t *testing.T) {
	const job = `{"format":"halfsplit-job","version":1,"title":"B1 dead","temporary":[{"what":"lifted","where":"W1@X1:2","placed":"09:00"}]}`
	code, out, errs := halfsplit(job, "record", "-")
	if code != exitNo || !strings.Contains(out, "! 09:00  wire lifted at W1@X1:2: STILL IN PLACE") || !strings.Contains(errs, "still in place, since 09:00") {
		t.Errorf("exit %d\n%s\n%s", code, out, errs)
	}
	back := strings.Replace(job, `"placed"`, `"back":"09:30","placed"`, 1)
	if code, out, errs = halfsplit(back, "record", "-", "--as", "html", "--paper", "letter"); code != exitDone || !strings.Contains(out, "size: letter") || errs != "" {
		t.Errorf("exit %d %s", code, errs)
	}
	if code, _, errs = halfsplit(job, "record", "-", "--as", "pdf"); code != exitBad || !strings.Contains(errs, "text, csv or html") {
		t.Errorf("exit %d %s", code, errs)
	}
}
