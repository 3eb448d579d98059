package api

// Isolate answers isolate: what to open before hands go to the target. Where no
// isolating point reaches, Isolated is false, Open is empty and Sources says why.
type Isolate struct {
	Targets  []string       `json:"targets"`  // as understood, canonical
	Isolated bool           `json:"isolated"` // with Open open, nothing solved reaches the target
	Open     []IsolatePoint `json:"open"`     // in this order
	// Instead would take less down, but carries more than it may open: see First.
	Instead  []IsolatePoint `json:"instead"`
	AlsoDown []Affected     `json:"also_down"`
	Sources  []Reach        `json:"sources"`
	Prove    []Proof        `json:"prove"`
	Cautions []Text         `json:"cautions"` // in the order of the work
	Text     string         `json:"text"`     // one sentence: what it comes to
}

// An IsolatePoint is one thing to open.
type IsolatePoint struct {
	Point    string   `json:"point"`    // "F0", "X1:4": what a step names
	How      string   `json:"how"`      // sentence: "switch off F0, lock, tag"
	Code     string   `json:"code"`     // of How
	Lockable bool     `json:"lockable"` // takes a padlock; else tag it and take the link along
	Amps     float64  `json:"amps"`     // it carries before anything is opened
	First    string   `json:"first"`    // what to do before, since it may not be opened under this load; else empty
	Points   []string `json:"points"`   // to ring on the strip picture
	Step     string   `json:"step"`     // as a condition takes it: "open X1:4"
}

// A Reach is something that reaches the target, or may, although the points are
// open.
type Reach struct {
	Ref      string `json:"ref"`
	Code     string `json:"code"` // "reach.live", "reach.on", "reach.stored" ...
	Text     string `json:"text"`
	Prevents bool   `json:"prevents"` // the target stays live through it
}

// A Proof is one pair of points to test for dead.
type Proof struct {
	Red      string   `json:"red"`
	Black    string   `json:"black"`
	RedTip   string   `json:"red_tip"`
	BlackTip string   `json:"black_tip"`
	Modes    []string `json:"modes"`  // "vdc", "vac"
	Before   []string `json:"before"` // what each mode shows before opening: "24.00 V"
	After    []string `json:"after"`  // and after
	// Live says that some mode shows a volt or more before. Where it does not, this
	// test proves nothing: Text says so.
	Live bool   `json:"live"`
	Text string `json:"text"`
}
