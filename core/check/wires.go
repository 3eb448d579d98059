package check

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/unit"
)

func (c *checker) wires() {
	lengths := map[string]int{} // cable → first wire that gives its length
	silent, first := 0, -1
	for i := range c.p.Wires {
		w, path := &c.p.Wires[i], item("wires", i)
		name := w.No
		if name == "" {
			name = "?"
		}
		switch {
		case w.From == "" && w.To == "":
			c.report(path, "wire-no-ends", name)
		case w.From == "":
			c.report(path, "wire-one-end", name, "from", w.To)
		case w.To == "":
			c.report(path, "wire-one-end", name, "to", w.From)
		}
		if w.From != "" {
			c.lands(path+".from", name, w.From)
		}
		if w.To != "" {
			c.lands(path+".to", name, w.To)
		}
		if a, ok := panel.ParsePoint(w.From); ok {
			if b, ok := panel.ParsePoint(w.To); ok && a == b {
				c.report(path+".to", "wire-to-itself", name, a.String())
			}
		}
		if w.Size == "" {
			c.report(path, "size-missing", name)
		} else {
			c.quantity(path+".size", name, "size", w.Size, unit.Area, false)
		}
		c.colour(w, path)
		if w.Length == "" {
			switch {
			case c.inField(w.From) || c.inField(w.To):
				c.report(path, "field-length-missing", name)
			default:
				if silent++; first < 0 {
					first = i
				}
			}
			continue
		}
		metres, ok := c.quantity(path+".length", name, "length", w.Length, unit.Length, false)
		if !ok || w.Cable == "" {
			continue
		}
		if k, seen := lengths[w.Cable]; !seen {
			lengths[w.Cable] = i
		} else if other, err := unit.Parse(c.p.Wires[k].Length, unit.Length); err == nil && math.Abs(other-metres) > 0.1*max(other, metres) {
			c.report(path+".length", "cable-lengths-differ", w.Cable, c.p.Wires[k].No, c.p.Wires[k].Length, name, w.Length)
		}
	}
	if silent > 0 {
		c.report(item("wires", first), "length-missing", strconv.Itoa(silent))
	}
}

// inField says whether a point as written is on a part in the field.
func (c *checker) inField(text string) bool {
	pt, ok := panel.ParsePoint(text)
	if !ok {
		return false
	}
	part := c.x.Part(pt.Device)
	return part != nil && part.At == "field"
}

// colourCodes are the letters of IEC 60757, with GNYE for green-and-yellow.
var colourCodes = []string{"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR", "GNYE"}

// greenYellow is reserved for protective conductors (IEC 60204-1).
const greenYellow = "GNYE"

// letters takes away what people put between two colours.
var letters = strings.NewReplacer("/", "", "-", "", " ", "")

// colour accepts one colour of IEC 60757, or two joined ("WHBU", "WH/BU").
func (c *checker) colour(w *panel.Wire, path string) {
	if w.Colour == "" {
		return
	}
	code := letters.Replace(w.Colour)
	ok := len(code)%2 == 0 && len(code) <= 4
	for k := 0; ok && k < len(code); k += 2 {
		ok = slices.Contains(colourCodes, code[k:k+2])
	}
	if !ok {
		c.report(path+".colour", "colour-unknown", w.No, w.Colour, list(colourCodes), panel.Nearest(w.Colour, colourCodes))
	}
}
