package check_test

import (
	"strings"
	"testing"
)

// around is ten terminals around a fault, with no more than what somebody saw:
// a boundary feeds them, another takes what leaves.
const around = `{
  "format": "halfsplit-panel",
  "version": 1,
  "name": "Ten terminals",
  "strips": [
    {"ref": "X1", "blocks": [
      {"no": "1", "type": "fuse-block", "fuse": "2 A T"}, {"no": "2", "type": "feed-through"}, {"no": "3", "type": "triple-level"}, {"no": "4", "type": "triple-level"},
      {"no": "5", "type": "diode-block"}, {"no": "6", "type": "led-block"}, {"no": "7", "type": "feed-through"}
    ], "jumpers": [{"blocks": ["3", "4"], "level": 1}, {"blocks": ["3", "4"], "level": 2}]}
  ],
  "parts": [
    {"ref": "X7", "kind": "boundary", "ratings": {"beyond": "feed", "voltage": "24 V", "resistance": "10 ohm", "class": "PELV", "bonded": "no"}},
    {"ref": "X8", "kind": "boundary", "ratings": {"beyond": "load", "resistance": "1 kohm"}},
    {"ref": "X9", "kind": "boundary"},
    {"ref": "B1", "kind": "proximity-pnp", "at": "field"},
    {"ref": "B2", "kind": "proximity-2wire", "at": "field"},
    {"ref": "A1", "kind": "digital-input", "channels": 2, "ratings": {"type": "3"}}
  ],
  "wires": [
    {"no": "1", "from": "X7:1", "to": "X1:1/in", "size": "1 mm2", "length": "1 m"},
    {"no": "2", "from": "X7:2", "to": "X1:2", "size": "1 mm2", "length": "1 m"},
    {"no": "3", "from": "X1:1/out", "to": "X1:3.1/in", "size": "1 mm2", "length": "1 m"},
    {"no": "4", "from": "X1:2", "to": "X1:3.2/in", "size": "1 mm2", "length": "1 m"},
    {"no": "5", "from": "X1:3.1/out", "to": "B1:1", "size": "0.75 mm2", "length": "12 m"},
    {"no": "6", "from": "X1:3.2/out", "to": "B1:3", "size": "0.75 mm2", "length": "12 m"},
    {"no": "7", "from": "X1:3.3/out", "to": "B1:4", "size": "0.75 mm2", "length": "12 m"},
    {"no": "8", "from": "X1:3.3/in", "to": "A1:0", "size": "0.75 mm2", "length": "1 m"},
    {"no": "9", "from": "X1:4.1/out", "to": "B2:1", "size": "0.75 mm2", "length": "12 m"},
    {"no": "10", "from": "X1:4.3/out", "to": "B2:4", "size": "0.75 mm2", "length": "12 m"},
    {"no": "11", "from": "X1:4.3/in", "to": "A1:1", "size": "0.75 mm2", "length": "1 m"},
    {"no": "12", "from": "X1:2", "to": "A1:M", "size": "0.75 mm2", "length": "1 m"},
    {"no": "13", "from": "X1:4.1/in", "to": "X1:5/in", "size": "0.75 mm2", "length": "1 m"},
    {"no": "14", "from": "X1:5/out", "to": "X1:6.2", "size": "0.75 mm2", "length": "1 m"},
    {"no": "15", "from": "X1:4.2/in", "to": "X1:6.1", "size": "0.75 mm2", "length": "1 m"},
    {"no": "16", "from": "X1:6.2", "to": "X8:1", "size": "0.75 mm2", "length": "1 m"},
    {"no": "17", "from": "X1:6.1", "to": "X8:2", "size": "0.75 mm2", "length": "1 m"},
    {"no": "18", "from": "X1:7", "to": "X9:1", "size": "0.75 mm2", "length": "1 m"}
  ],
  "conditions": [{"name": "normal", "set": {"B1": "reached"}}]
}
`

// A panel that knows where its drawing ends is a right drawing, feed and all.
func TestBoundariesAreSilent(t *testing.T) {
	if got := told([]byte(around)); len(got) > 0 {
		t.Errorf("%q", got)
	}
	for _, tc := range []struct{ old, now, want string }{
		{`"resistance": "10 ohm", "class": "PELV"`, `"resistance": "10 ohm"`, "12:5 class-unstated"},
		{`"beyond": "load"`, `"beyond": "lode"`, "13:61 rating-word"},
		{`"beyond": "feed", "voltage": "24 V"`, `"beyond": "nothing"`, "1:1 no-source"},
	} {
		found := false
		for _, line := range told([]byte(change(t, around, tc.old, tc.now))) {
			found = found || line == tc.want
		}
		if !found {
			t.Errorf("%s: %q, want %s", tc.now, told([]byte(change(t, around, tc.old, tc.now))), tc.want)
		}
	}
}

// transformed is a control circuit behind a transformer whose secondary has one end
// bonded, beside a DC supply whose minus is: both are the normal practice of
// IEC 60204-1 9.4.3.
const transformed = `{
  "format": "halfsplit-panel",
  "version": 1,
  "name": "Control transformer",
  "mains": [
    {"ref": "G0", "voltage": "230 V", "frequency": "50 Hz", "earthing": "TN-S", "from": "isolator Q0 beside the door"}
  ],
  "strips": [
    {"ref": "X9", "blocks": [{"no": "1", "type": "ground"}, {"no": "2", "type": "ground"}, {"no": "3", "type": "ground"}, {"no": "4", "type": "ground"}]}
  ],
  "parts": [
    {"ref": "T1", "kind": "control-transformer", "ratings": {"voltage": "120 V", "power": "100 VA", "class": "none"}},
    {"ref": "T2", "kind": "dc-supply", "ratings": {"voltage": "24 V", "current": "5 A", "class": "PELV"}},
    {"ref": "F1", "kind": "fuse", "ratings": {"current": "1 A T"}},
    {"ref": "F2", "kind": "fuse", "ratings": {"current": "2 A T"}},
    {"ref": "F3", "kind": "breaker", "ratings": {"current": "C6", "poles": "2"}},
    {"ref": "K1", "kind": "relay", "ratings": {"voltage": "120 V", "resistance": "3 kohm", "frequency": "50 Hz"}},
    {"ref": "P1", "kind": "pilot-light"}
  ],
  "wires": [
    {"no": "1", "from": "G0:L", "to": "F3:1", "size": "1.5 mm2", "length": "1 m", "colour": "BK"},
    {"no": "2", "from": "G0:N", "to": "F3:3", "size": "1.5 mm2", "length": "1 m", "colour": "BU"},
    {"no": "3", "from": "F3:2", "to": "T1:1", "size": "1.5 mm2", "length": "1 m", "colour": "BK"},
    {"no": "4", "from": "F3:4", "to": "T1:2", "size": "1.5 mm2", "length": "1 m", "colour": "BU"},
    {"no": "5", "from": "G0:PE", "to": "X9:1", "size": "1.5 mm2", "length": "1 m", "colour": "GNYE"},
    {"no": "6", "from": "X9:1", "to": "T1:PE", "size": "1.5 mm2", "length": "1 m", "colour": "GNYE"},
    {"no": "7", "from": "X9:2", "to": "T1:4", "size": "1.5 mm2", "length": "1 m", "colour": "GNYE"},
    {"no": "8", "from": "T1:3", "to": "F1:1", "size": "1.5 mm2", "length": "1 m", "colour": "RD"},
    {"no": "9", "from": "F1:2", "to": "K1:A1", "size": "1 mm2", "length": "1 m", "colour": "RD"},
    {"no": "10", "from": "K1:A2", "to": "T1:4", "size": "1 mm2", "length": "1 m", "colour": "WH"},
    {"no": "11", "from": "F3:2", "to": "T2:L", "size": "1.5 mm2", "length": "1 m", "colour": "BK"},
    {"no": "12", "from": "F3:4", "to": "T2:N", "size": "1.5 mm2", "length": "1 m", "colour": "BU"},
    {"no": "13", "from": "X9:3", "to": "T2:PE", "size": "1.5 mm2", "length": "1 m", "colour": "GNYE"},
    {"no": "14", "from": "X9:4", "to": "T2:-", "size": "1.5 mm2", "length": "1 m", "colour": "GNYE"},
    {"no": "15", "from": "T2:+", "to": "F2:1", "size": "1.5 mm2", "length": "1 m", "colour": "BU"},
    {"no": "16", "from": "F2:2", "to": "P1:X1", "size": "1 mm2", "length": "1 m", "colour": "BU"},
    {"no": "17", "from": "P1:X2", "to": "T2:-", "size": "1 mm2", "length": "1 m", "colour": "WHBU"}
  ],
  "conditions": [{"name": "normal"}]
}
`

func TestBondedSecondaryIsSilent(t *testing.T) {
	if got := told([]byte(transformed)); len(got) > 0 {
		t.Errorf("%q", got)
	}
	for _, tc := range []struct{ old, now, want string }{
		{`"from": "X9:2", "to": "T1:4"`, `"from": "X9:2", "to": "T1:3"`, "line-on-earth"},
		{`"resistance": "3 kohm", "frequency": "50 Hz"`, `"resistance": "3 kohm"`, "coil-for-dc"},
		{`"from": "K1:A2", "to": "T1:4"`, `"from": "K1:A2", "to": "X9:2"`, "pe-as-return"},
	} {
		lines := told([]byte(change(t, transformed, tc.old, tc.now)))
		found := false
		for _, line := range lines {
			found = found || strings.HasSuffix(line, " "+tc.want)
		}
		if !found {
			t.Errorf("%s: %q, want %s", tc.now, lines, tc.want)
		}
	}
}
