// Package demo opens the embedded panels for tests.
package demo

import (
	"testing"

	"halfsplit/core/panel"
	"halfsplit/core/sim"
	"halfsplit/scenarios"
)

// Names lists the demo panels.
var Names = scenarios.Names

// Panel reads a demo panel.
func Panel(t testing.TB, name string) *panel.Panel {
	t.Helper()
	data, err := scenarios.Panel(name)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := panel.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	return doc.Panel
}

// In gives a demo panel's model and one of its conditions.
func In(t testing.TB, name, condition string) (*sim.Model, sim.Condition) {
	t.Helper()
	m := sim.New(Panel(t, name))
	c, err := m.Condition(condition)
	if err != nil {
		t.Fatal(err)
	}
	return m, c
}
