package check

import (
	"slices"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// earthings are the systems of IEC 60364-1 that the model knows.
var earthings = []string{"TN-S", "TN-C-S", "TT", "IT"}

// mainsTerminals are the terminals every incoming supply has.
var mainsTerminals = []string{"L", "N", "PE"}

// isMains says that a kind is the incoming supply itself, which a document writes
// under mains.
func isMains(k *parts.Kind) bool {
	if k.Block || !k.Source {
		return false
	}
	var names []string
	for _, t := range k.Terminals(&panel.Part{}) {
		names = append(names, t.Name)
	}
	return slices.Equal(names, mainsTerminals)
}

func (c *checker) mains() {
	for i := range c.p.Mains {
		m, path := &c.p.Mains[i], item("mains", i)
		c.quantity(path+".voltage", m.Ref, "voltage", m.Voltage, unit.Voltage, true)
		c.quantity(path+".frequency", m.Ref, "frequency", m.Frequency, unit.Frequency, true)
		c.quantity(path+".impedance", m.Ref, "impedance", m.Impedance, unit.Resistance, false)
		switch {
		case m.Earthing == "":
			c.report(path, "earthing-missing", m.Ref, list(earthings))
		case !slices.Contains(earthings, m.Earthing):
			c.report(path+".earthing", "earthing-unknown", m.Ref, m.Earthing, list(earthings), panel.Nearest(m.Earthing, earthings))
		}
		if m.From == "" {
			c.report(path, "isolation-unstated", m.Ref)
		}
	}
}

// examples show how a quantity is written.
var examples = map[unit.Dimension]string{
	unit.Voltage:     "24 V",
	unit.Current:     "0.5 A",
	unit.Resistance:  "4.8 kohm",
	unit.Power:       "5 W",
	unit.Frequency:   "50 Hz",
	unit.Length:      "12 m",
	unit.Area:        "0.75 mm2, 18 AWG",
	unit.Time:        "20 ms",
	unit.Capacitance: "100 nF",
	unit.Ratio:       "85 %",
}

// quantity checks a value that must be greater than zero; ok is false where it
// cannot be used.
func (c *checker) quantity(path, ref, name, text string, d unit.Dimension, must bool) (v float64, ok bool) {
	if text == "" {
		if must {
			c.report(path, "rating-missing", ref, name, examples[d])
		}
		return 0, false
	}
	v, err := unit.Parse(text, d)
	switch {
	case err != nil:
		c.report(path, "rating-unreadable", ref, name, text, examples[d])
	case v <= 0:
		c.report(path, "rating-not-positive", ref, name, text)
	default:
		return v, true
	}
	return 0, false
}
