package api

// Observations are what a person has seen and measured, in order.
type Observations struct {
	Dead     []string  `json:"dead,omitempty"`
	Works    []string  `json:"works,omitempty"`
	Sees     []Look    `json:"sees,omitempty"`
	Readings []Reading `json:"readings,omitempty"`
}

// A Look is a state seen on a device or on a blown-link indicator.
type Look struct {
	Ref   string `json:"ref"`   // device, its tag, or the block of an indicator
	State string `json:"state"` // code: "lit", "dark", "on", "measuring"
	At    string `json:"at,omitempty"`
}

// A Reading is one entered figure.
type Reading struct {
	Mode  string   `json:"mode"`            // any of the meter
	Red   string   `json:"red"`             // of clamp the wire, of ma perhaps what is opened
	Black string   `json:"black"`           // empty then
	Value *float64 `json:"value"`           // volts, ohms, mA (ma) or amperes (clamp); null with Shown
	Shown string   `json:"shown,omitempty"` // "OL" (ohms, diode), "beep", "silent"
	// At is how the panel was held, where that differs from the request's
	// condition: Next.With as it was prompted ("press S2", "power-off"), or the
	// name of another condition.
	At string `json:"at,omitempty"`
}

// Find answers find.
type Find struct {
	Status   string    `json:"status"` // continue found cannot-separate nothing-wrong nothing-explains
	Text     string    `json:"text"`   // one sentence: where the search stands
	Suspects []Suspect `json:"suspects"`
	Next     *Next     `json:"next"`
	// Misfit names the observation that disagrees most, with nothing-explains.
	Misfit *Text `json:"misfit"`
	// Checklist is what to do once found: repair, cautions, checks after it.
	Checklist []Text `json:"checklist"`
	All       []Hypo `json:"all,omitempty"`
}

// A Suspect is a group of faults that one repair at one place mends, or that no
// permitted reading tells apart.
type Suspect struct {
	Faults      []string `json:"faults"`
	Names       []string `json:"names"`  // sentences, one a fault
	Repair      string   `json:"repair"` // sentence
	Place       string   `json:"place"`  // "X3:7.2", "W12"
	Points      []string `json:"points"` // to ring on the strip picture
	Probability float64  `json:"probability"`
	Consistent  bool     `json:"consistent"`
	Silent      bool     `json:"silent"` // nothing in this condition would show it: what was seen dead may work
	Evidence    []Text   `json:"evidence"`
}

// Next is the best next step.
type Next struct {
	Kind     string    `json:"kind"` // "reading", "look", "repair"
	Mode     string    `json:"mode"` // of a reading: vdc, vac, ohms
	Red      string    `json:"red"`
	Black    string    `json:"black"`
	RedTip   string    `json:"red_tip"`   // where that is, for people: "X3:7, upper level, field side, LT-1 +"
	BlackTip string    `json:"black_tip"` // the same of the black probe
	Ref      string    `json:"ref"`       // of a look: the device, or the block of an indicator
	RefTip   string    `json:"ref_tip"`   // what that is, for people
	With     string    `json:"with"`      // to give back as At: "", "press S2", "power-off"
	WithText string    `json:"with_text"` // what to have on, for people
	Expect   string    `json:"expect"`    // what a healthy panel shows: "24.00 V", "lit"
	Minutes  float64   `json:"minutes"`
	Bits     float64   `json:"bits"`
	Outcomes []Outcome `json:"outcomes"`
	Cautions []Text    `json:"cautions"`
	Text     string    `json:"text"`
}

// An Outcome is one thing the next step may show.
type Outcome struct {
	Value       *float64 `json:"value"` // typical, to enter by one tap; null of a look
	State       string   `json:"state"` // of a look, to enter by one tap
	Low         float64  `json:"low"`   // the band it stands for
	High        float64  `json:"high"`
	Unit        string   `json:"unit"`
	Shown       string   `json:"shown"`       // "24.00 V", "about 0 V", "dark"
	Text        string   `json:"text"`        // what it would mean
	Probability float64  `json:"probability"` // of seeing it
	Healthy     bool     `json:"healthy"`     // a healthy panel shows this
	Suspects    []int    `json:"suspects"`    // indices into Find.Suspects that predict it
}

// A Hypo is one hypothesis, for --all.
type Hypo struct {
	Fault       string  `json:"fault"`
	Probability float64 `json:"probability"`
	Consistent  bool    `json:"consistent"`
	Worst       float64 `json:"worst_sigma"` // of its observations
}
