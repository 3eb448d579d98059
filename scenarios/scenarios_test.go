package scenarios_test

import (
	"os"
	"strings"
	"testing"

	"halfsplit/scenarios"
)

// Every file of the folder is shipped.
func TestNothingIsLeftOut(t *testing.T) {
	files, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	shipped := 0
	for _, f := range files {
		name := f.Name()
		if !strings.HasSuffix(name, ".json") {
			continue
		}
		held := scenarios.Files
		if strings.HasSuffix(name, ".drill.json") {
			held = scenarios.Drills
		}
		if _, err := held.Open(name); err != nil {
			t.Errorf("%s is not shipped: name it in scenarios.go", name)
		}
		shipped++
	}
	if shipped < 20 {
		t.Errorf("only %d files were found", shipped)
	}
}
