package share

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"halfsplit/core/panel"
)

const bare = `{"format": "halfsplit-panel", "version": 1, "name": "Pump"}`

// Where a copy comes from is no part of what it says.
func TestEditions(t *testing.T) {
	first, err := Edition([]byte(bare))
	if err != nil || len(first) != editionLength {
		t.Fatalf("%q %v", first, err)
	}
	sent, err := WithEditions([]byte(bare), []string{first})
	if err != nil {
		t.Fatal(err)
	}
	if list, err := Editions(sent); err != nil || !slices.Equal(list, []string{first}) {
		t.Errorf("it comes from %v, %v", list, err)
	}
	if again, _ := Edition(sent); again != first {
		t.Errorf("editions changed the edition: %s, %s", first, again)
	}
	if list, err := Diff([]byte(bare), sent); err != nil || len(list) != 0 {
		t.Errorf("editions are told as a difference: %v %v", list, err)
	}
	if same, err := WithEditions(sent, []string{first}); err != nil || string(same) != string(sent) {
		t.Errorf("nothing to add, and the bytes changed: %s %v", same, err)
	}
	if _, err := Editions([]byte("{}")); err == nil {
		t.Error("no document has editions")
	}
	if _, err := WithEditions([]byte("{}"), nil); err == nil {
		t.Error("no document takes editions")
	}
}

// The list keeps the newest, and stays within what a document may have.
func TestEditionsAreBounded(t *testing.T) {
	var many []string
	for i := range panel.MaxEditions + 5 {
		many = append(many, strconv.Itoa(i))
	}
	doc, err := WithEditions([]byte(bare), many)
	if err != nil {
		t.Fatal(err)
	}
	if list, err := Editions(doc); err != nil || !slices.Equal(list, many[5:]) {
		t.Errorf("%v %v", list, err)
	}
}

// A merged panel comes from all that both copies came from, without a conflict
// about it; other documents have no editions and stay as they are.
func TestMergedEditions(t *testing.T) {
	ours, _ := WithEditions([]byte(bare), []string{"a", "b"})
	theirs, _ := WithEditions([]byte(strings.Replace(bare, "Pump", "Pump 2", 1)), []string{"a", "c"})
	m, err := Merge([]byte(bare), ours, theirs, nil)
	if err != nil {
		t.Fatal(err)
	}
	if list, _ := Editions(m.Document); !slices.Equal(list, []string{"a", "b", "c"}) || len(m.Conflicts) != 0 || len(m.Taken) != 1 {
		t.Errorf("editions %v, conflicts %v, taken %v", list, m.Conflicts, m.Taken)
	}
	const job = `{"format": "halfsplit-job", "version": 1, "title": "B3 dead", "panel": ` + bare + `}`
	from, err := WithEditions([]byte(job), []string{"a"})
	if list, _ := Editions(from); err != nil || !slices.Equal(list, []string{"a"}) {
		t.Errorf("the panel of a job comes from %v: %v", list, err)
	}
	const none = `{"format": "halfsplit-job", "version": 1, "title": "B3 dead"}`
	if same, err := WithEditions([]byte(none), []string{"a"}); err != nil || string(same) != none {
		t.Errorf("a job without a panel became %s, %v", same, err)
	}
	listed := strings.Replace(job, `"name"`, `"editions": ["a"], "name"`, 1)
	one, _ := Digest([]byte(job))
	if other, err := Digest([]byte(listed)); err != nil || other != one {
		t.Errorf("a job is another one for where its panel comes from: %v", err)
	}
}
