package api

// State answers state.
type State struct {
	Points  []PointState  `json:"points"`
	Devices []DeviceState `json:"devices"`
	Lights  []DeviceState `json:"lights"` // blown-link indicators
	Flags   []Text        `json:"flags"`
}

// A PointState is the voltage of a point to earth.
type PointState struct {
	Point    string  `json:"point"`
	VDC      float64 `json:"vdc"`
	VAC      float64 `json:"vac"`
	VACDeg   float64 `json:"vac_deg"`
	Floating bool    `json:"floating"` // held by insulation only
}

// A DeviceState is what a device does.
type DeviceState struct {
	Ref    string   `json:"ref"`
	State  string   `json:"state"` // code
	Text   string   `json:"text"`  // for people
	Grade  string   `json:"grade"` // "off", "weak", "on"
	Volts  float64  `json:"volts"`
	Amps   float64  `json:"amps"`
	Signal *float64 `json:"signal_ma"` // null where it reports none
	// Celsius is the temperature it reports, null where it reports none.
	Celsius *float64 `json:"celsius"`
}

// WhatIf answers whatif.
type WhatIf struct {
	Faults   []FaultDef `json:"faults"`
	Affected []Affected `json:"affected"`
	Timeline []Event    `json:"timeline"`
	Points   []Moved    `json:"points"` // points whose voltage changed
	Flags    []Text     `json:"flags"`
	Cautions []Text     `json:"cautions"`
	Text     string     `json:"text"` // one sentence: what it comes to
}

// An Affected device, worst first.
type Affected struct {
	Ref     string      `json:"ref"`
	Tag     string      `json:"tag"`
	Label   string      `json:"label"`
	Effect  string      `json:"effect"` // dead starved wrong-value held-on chattering unsafe unprotected
	Text    string      `json:"text"`
	Was     DeviceState `json:"was"`
	Now     DeviceState `json:"now"`
	Why     []Text      `json:"why"`
	Process string      `json:"process"`
}

// A Moved point.
type Moved struct {
	Point string `json:"point"`
	Was   string `json:"was"` // as a meter to earth would show it
	Now   string `json:"now"`
}

// An Event of the timeline.
type Event struct {
	MSMin float64 `json:"ms_min"`
	MSMax float64 `json:"ms_max"`
	Event string  `json:"event"`
	Code  string  `json:"code"`
}

// Sweep answers sweep.
type Sweep struct {
	Rows []SweepRow `json:"rows"`
}

// A SweepRow is the what-if of one fault in short.
type SweepRow struct {
	Fault    string        `json:"fault"`
	Affected []SweepEffect `json:"affected"`
}

// A SweepEffect is one affected device in short.
type SweepEffect struct {
	Ref    string `json:"ref"`
	Effect string `json:"effect"`
}
