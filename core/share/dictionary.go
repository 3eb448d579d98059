package share

// dictionary is what deflate may refer to without carrying it: the words every
// document is made of, the commonest last (RFC 1950, 2.2: those nearest the data
// cost least). It belongs to packVersion 1 and never changes; another dictionary
// is another version.
const dictionary = `"format": "halfsplit-drill", "hidden": "explanation": "complaint": "questions": "sealed": "format": "halfsplit-job", ` +
	`"title": "started": "ended": "minutes": "temporary": "what": "where": "placed": "back": "cause": "faults": "repair": "checks": "photos": ` +
	`"steps": [ "when": "kind": "reading", "mode": "vdc", "red": "black": "shown": "expected": "why": "look", "fuse-blown" "lever-open" "lifted" ` +
	`"found": [ {"op": "move-wire", "wire": "end": "from", "point": "add-wire", "add": "remove-wire", "add-part", "remove-part", "add-jumper", ` +
	`"remove-jumper", "jump": "set-block", "block": "remove-block", "note": "by": ` +
	`"conditions": [ "name": "normal", "about": "set": {"S1": "pressed", "50 %", "closed", "steps": ["press S2", "release S2"] ` +
	`"format": "halfsplit-panel",
  "version": 1,
  "name": "",
  "about": "",
  "mains": [
    {"ref": "G0", "voltage": "230 V", "frequency": "50 Hz", "earthing": "TN-S", "impedance": "0.5 ohm", "from": "main switch Q0"}
  ],
  "strips": [
    {"ref": "X1", "label": "24 V", "blocks": [
        {"no": "PE1", "type": "ground"},
        {"no": "1", "type": "double-level-fused", "fuse": "1 A T", "indicator": "24 V", "label": ""},
        {"no": "2", "type": "disconnect-block"},
        {"no": "3", "type": "double-level"},
        {"no": "4", "type": "fuse-block", "fuse": "2 A T", "indicator": "24 V"},
        {"no": "5", "type": "feed-through"},
      "jumpers": [
        {"blocks": ["1", "2", "3", "4", "5", "6", "7", "8"], "level": 1, "side": "in"}
  "parts": [
    {"ref": "F1", "kind": "breaker", "label": "supply", "ratings": {"current": "C2", "poles": "2"}},
    {"ref": "T1", "kind": "dc-supply", "ratings": {"voltage": "24 V", "current": "5 A", "class": "PELV"}},
    {"ref": "G1", "kind": "boundary", "ratings": {"beyond": "feed", "bonded": "no"}},
    {"ref": "A1", "kind": "analogue-input", "channels": 8},
    {"ref": "A2", "kind": "digital-input"}, "digital-output"
    {"ref": "S1", "kind": "button", "contacts": ["21-22"]}, "selector", "limit-switch", "float-switch", "flow-switch"
    {"ref": "K1", "kind": "relay", "contacts": ["13-14", "11-12-14"], "process": "stops"},
    {"ref": "P1", "kind": "pilot-light"}, "motor", "solenoid"
    {"ref": "B1", "kind": "transmitter-2wire", "tag": "LT-101", "label": "level", "at": "field"},
  "wires": [
    {"no": "W1", "from": "G0:PE", "to": "X9:1", "size": "1.5 mm2", "length": "2 m", "colour": "GNYE"},
    {"no": "W2", "from": "X1:1/out", "to": "B1:+", "size": "0.75 mm2", "length": "20 m", "colour": "BN", "cable": "C1", "core": "1"},
    {"no": "W3", "from": "X1:2/in", "to": "K1:A1", "size": "0.75 mm2", "length": "0.5 m", "colour": "BU"},
`
