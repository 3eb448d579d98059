package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

// A spice is one ngspice process that has loaded a circuit and waits for
// commands, so that neither its start nor the reading of the circuit counts.
type spice struct {
	cmd   *exec.Cmd
	in    io.WriteCloser
	out   *bufio.Reader
	marks int
	dir   string
}

func spiceVersion() string {
	out, err := exec.Command("ngspice", "-v").Output()
	if err != nil {
		return "no ngspice"
	}
	for _, word := range strings.Fields(string(out)) {
		if strings.HasPrefix(word, "ngspice-") {
			return word
		}
	}
	return "ngspice of unknown version"
}

func startSpice(deck string) (*spice, error) {
	dir, err := os.MkdirTemp("", "halfsplit-speed-")
	if err != nil {
		return nil, err
	}
	s := &spice{cmd: exec.Command("ngspice", "-n", "-p"), dir: dir}
	s.cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	s.cmd.Dir = dir
	if s.in, err = s.cmd.StdinPipe(); err != nil {
		return nil, err
	}
	out, err := s.cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	s.out = bufio.NewReaderSize(out, 1<<20)
	s.cmd.Stderr = s.cmd.Stdout
	if err := os.WriteFile(filepath.Join(dir, "panel.cir"), []byte(deck), 0o600); err != nil {
		return nil, err
	}
	if err := s.cmd.Start(); err != nil {
		return nil, fmt.Errorf("%w (apt-get install ngspice)", err)
	}
	_, err = s.do("set numdgt=15\nsource panel.cir\n")
	return s, err
}

func (s *spice) stop() {
	fmt.Fprintln(s.in, "quit")
	s.in.Close()
	_ = s.cmd.Wait() // it ends with 1 when commands come through a pipe
	os.RemoveAll(s.dir)
}

func (s *spice) watch() stopwatch { return of(s.cmd.Process.Pid) }

// do gives commands and returns what was said until all are done.
func (s *spice) do(commands string) ([]string, error) {
	s.marks++
	mark := fmt.Sprintf("mark%d", s.marks)
	if _, err := fmt.Fprintf(s.in, "%secho %s\n", commands, mark); err != nil {
		return nil, err
	}
	var lines []string
	for {
		line, err := s.out.ReadString('\n')
		if err != nil {
			return nil, fmt.Errorf("ngspice ended: %w\n%s", err, strings.Join(lines, "\n"))
		}
		line = strings.TrimSpace(line)
		if line == mark {
			return lines, nil
		}
		lower := strings.ToLower(line)
		if strings.Contains(lower, "error") && !strings.Contains(lower, "graphics interface") || strings.Contains(lower, "singular") || strings.Contains(lower, "gmin step") {
			return nil, fmt.Errorf("ngspice: %s", line)
		}
		lines = append(lines, line)
	}
}

// volts reads nodes of the last operating point.
func (s *spice) volts(nodes []int) ([]float64, error) {
	var b strings.Builder
	for _, n := range nodes {
		fmt.Fprintf(&b, "print v(%d)\n", n)
	}
	lines, err := s.do(b.String())
	if err != nil {
		return nil, err
	}
	var list []float64
	for _, line := range lines {
		name, value, ok := strings.Cut(line, " = ")
		if !ok || !strings.HasPrefix(name, "v(") {
			continue
		}
		v, err := strconv.ParseFloat(value, 64)
		if err != nil {
			return nil, err
		}
		list = append(list, v)
	}
	if len(list) != len(nodes) {
		return nil, fmt.Errorf("ngspice told %d voltages of %d", len(list), len(nodes))
	}
	return list, nil
}
