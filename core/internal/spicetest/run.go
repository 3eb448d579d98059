package spicetest

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

// Run gives decks to one ngspice process in batch mode and returns the voltages
// of each, by the name ngspice has for them: "v(12)".
func Run(dir string, decks []Deck) ([]map[string]complex128, error) {
	var script bytes.Buffer
	script.WriteString("all decks\n.control\nset filetype=binary\nset noaskquit\n")
	for i, d := range decks {
		name := fmt.Sprintf("d%d", i)
		if err := os.WriteFile(filepath.Join(dir, name+".cir"), []byte(d.Text), 0o600); err != nil {
			return nil, err
		}
		fmt.Fprintf(&script, "source %s.cir\n%s\nwrite %s.raw\ndestroy all\nremcirc\n", name, d.Analysis, name)
	}
	script.WriteString("quit 0\n.endc\n.end\n")
	if err := os.WriteFile(filepath.Join(dir, "all.cir"), script.Bytes(), 0o600); err != nil {
		return nil, err
	}
	cmd := exec.Command("ngspice", "-n", "-b", "all.cir")
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("ngspice: %w (apt-get install ngspice)\n%.3000s", err, out)
	}
	all := make([]map[string]complex128, len(decks))
	for i := range decks {
		name := filepath.Join(dir, fmt.Sprintf("d%d.raw", i))
		raw, err := os.ReadFile(name)
		if err != nil {
			return nil, fmt.Errorf("ngspice answered nothing for deck %d: %w", i, err)
		}
		if all[i], err = readRaw(raw); err != nil {
			return nil, fmt.Errorf("deck %d: %w", i, err)
		}
		os.Remove(name)
	}
	return all, nil
}

// readRaw reads a binary raw file of one point: a text head, then a double for
// each variable, two where they are complex. Source: the ngspice manual, chapter
// on the raw file format.
func readRaw(raw []byte) (map[string]complex128, error) {
	mark := []byte("Binary:\n")
	at := bytes.Index(raw, mark)
	if at < 0 {
		return nil, fmt.Errorf("no binary raw file: %.200q", raw)
	}
	head, body := string(raw[:at]), raw[at+len(mark):]
	var names []string
	points, size, inNames := 0, 8, false
	for line := range strings.Lines(head) {
		line = strings.TrimSpace(line)
		key, value, _ := strings.Cut(line, ":")
		switch {
		case inNames:
			if f := strings.Fields(line); len(f) >= 3 {
				names = append(names, f[1])
			}
		case key == "Flags" && strings.Contains(value, "complex"):
			size = 16
		case key == "No. Points":
			points, _ = strconv.Atoi(strings.TrimSpace(value))
		case key == "Variables":
			inNames = true
		}
	}
	if points != 1 || len(body) < size*len(names) || len(names) == 0 {
		return nil, fmt.Errorf("raw file of %d points, %d variables, %d bytes", points, len(names), len(body))
	}
	values := make(map[string]complex128, len(names))
	double := func(i int) float64 { return math.Float64frombits(binary.LittleEndian.Uint64(body[8*i:])) }
	for i, name := range names {
		if size == 16 {
			values[name] = complex(double(2*i), double(2*i+1))
		} else {
			values[name] = complex(double(i), 0)
		}
	}
	return values, nil
}
