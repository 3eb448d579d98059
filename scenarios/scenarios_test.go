package scenarios_test

import (
	"bytes"
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
		shippedAs := func() (err error) {
			if strings.HasSuffix(name, ".drill.json") {
				_, err = scenarios.Drills.ReadFile(name)
				return err
			}
			_, err = scenarios.Panel(strings.TrimSuffix(name, ".json"))
			return err
		}
		if err := shippedAs(); err != nil {
			t.Errorf("%s is not shipped, name it in scenarios.go: %v", name, err)
		}
		shipped++
	}
	for _, name := range scenarios.Names {
		data, err := scenarios.Panel(name)
		file, err2 := os.ReadFile(name + ".json")
		if err != nil || err2 != nil || !bytes.Equal(data, file) {
			t.Errorf("%s is not the file of that name: %v %v", name, err, err2)
		}
	}
	if shipped < 20 {
		t.Errorf("only %d files were found", shipped)
	}
}
