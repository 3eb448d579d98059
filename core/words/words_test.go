package words_test

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"testing"

	"halfsplit/core/panel"
	"halfsplit/core/words"
)

func TestSay(t *testing.T) {
	for _, tc := range []struct {
		code string
		args []string
		want string
	}{
		{"duplicate-ref", []string{"K1"}, "there is a second K1"},
		{"unknown-wire-of-nobody", []string{"a", "b"}, "⟨unknown-wire-of-nobody | a | b⟩"},
		{"not-object", []string{"", "12"}, "here stands 12"},
		{"not-object", []string{"wires[3]", "12"}, "wires[3] must be an object; here stands 12"},
	} {
		if got := words.Say("en", tc.code, tc.args...); got != tc.want {
			t.Errorf("Say(%s, %q) = %q, want %q", tc.code, tc.args, got, tc.want)
		}
		if got := words.Say("xx-YY", tc.code, tc.args...); got != tc.want {
			t.Errorf("in a language without words: %q, want English", got)
		}
	}
}

// An optional part goes with its argument; brackets and braces of the sentence
// itself stay, and so do those of an argument.
func TestHint(t *testing.T) {
	for _, tc := range []struct {
		code string
		args []string
		want string
	}{
		{"unknown-field", []string{"frm", "from, to", "from"}, "the fields here are from, to; did you mean from?"},
		{"unknown-field", []string{"frm", "from, to", ""}, "the fields here are from, to"},
		{"not-list", nil, "write its entries in brackets, even a single one: [ ]"},
		{"not-object", nil, `write its fields in braces: {"name": "value"}`},
		{"comma-expected", []string{"]", "{0}[{1}]"}, "put a comma between two entries, and ] after the last"},
		{"no-such-code", nil, ""},
	} {
		if got := words.Hint("en", tc.code, tc.args...); got != tc.want {
			t.Errorf("Hint(%s, %q) = %q, want %q", tc.code, tc.args, got, tc.want)
		}
	}
}

func ExampleRender() {
	fmt.Println(words.Render("en", "pump.json", panel.Problem{Line: 41, Col: 17, Code: "unknown-terminal",
		Args: []string{"W12", "Q1:A3", "Q1", "A3", "relay", "A1, A2, 13, 14", "Q1:A2"}}))
	// Output:
	// pump.json:41:17: wire W12 ends at Q1:A3, and Q1 has no terminal A3
	//   hint: Q1 is a relay with A1, A2, 13, 14; did you mean Q1:A2?
}

// Files are JSON, keep their codes in one place each, and no translation has a
// code or an argument that English does not have.
func TestCatalogues(t *testing.T) {
	names, err := filepath.Glob("*.json")
	if err != nil || len(names) == 0 {
		t.Fatal("no catalogues found", err)
	}
	read := map[string]map[string]string{}
	for _, name := range names {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		var c map[string]string
		if err := json.Unmarshal(data, &c); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if n := strings.Count(string(data), "\": \""); n < len(c) {
			t.Errorf("%s: %d entries on %d lines", name, len(c), n)
		} else if n > len(c) {
			seen := map[string]bool{}
			for _, m := range regexp.MustCompile(`(?m)^\s*"([^"]+)":`).FindAllStringSubmatch(string(data), -1) {
				if seen[m[1]] {
					t.Errorf("%s: %s stands twice", name, m[1])
				}
				seen[m[1]] = true
			}
		}
		for code, s := range c {
			if page := strings.HasPrefix(code, "page."); page != strings.HasPrefix(name, "page.") {
				t.Errorf("%s: %s belongs in the other catalogue", name, code)
			}
			if strings.TrimSpace(s) != s || s == "" {
				t.Errorf("%s: %s is %q", name, code, s)
			}
		}
		read[name] = c
	}
	for name, c := range read {
		group, lang := name[:len(name)-len("en.json")], name[len(name)-len("en.json"):len(name)-len(".json")]
		english, shipped := read[group+"en.json"], words.Catalogue(lang)
		for code, s := range c {
			if shipped[code] != s {
				t.Errorf("%s: %s is not shipped: name the file in files.go", name, code)
				break
			}
			if e, ok := english[code]; !ok {
				t.Errorf("%s: %s is not in English", name, code)
			} else if a, b := arguments(e), arguments(s); a != b {
				t.Errorf("%s: %s uses %s, English %s", name, code, b, a)
			}
		}
	}
	n := len(read["en.json"]) + len(read["workshop.en.json"]) + len(read["page.en.json"])
	if all := words.Catalogue("en"); len(all) != n {
		t.Errorf("Catalogue has %d sentences, the files %d: one stands in two of them", len(all), n)
	}
}

func arguments(s string) string {
	seen := map[string]bool{}
	var list []string
	for _, a := range regexp.MustCompile(`\{\d\}`).FindAllString(s, -1) {
		if !seen[a] {
			seen[a] = true
			list = append(list, a)
		}
	}
	sort.Strings(list)
	return strings.Join(list, " ")
}
