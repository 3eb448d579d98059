package api

// Meter answers meter: a reading, or Refused with its reason.
type Meter struct {
	Mode        string   `json:"mode"`
	Red         string   `json:"red"`   // of clamp: the wire
	Black       string   `json:"black"` // empty of clamp
	Value       *float64 `json:"value"` // in Unit; null on overload and when refused
	Unit        string   `json:"unit"`  // "V", "mA" (ma), "A" (clamp), "ohm"; empty when refused
	Shown       string   `json:"shown"` // "24.00 V", "OL", "beep", "silent"
	Overload    bool     `json:"overload"`
	Disturbs    []Text   `json:"disturbs"` // what the meter itself changed
	Notes       []Text   `json:"notes"`    // how to hold the meter, what makes the figure doubtful
	Cautions    []Text   `json:"cautions"`
	Refused     string   `json:"refused,omitempty"`
	Hint        string   `json:"hint,omitempty"`
	RefusedCode string   `json:"refused_code,omitempty"` // "refused.live"
	// Consequence is what would come of a refused measurement that is made all the
	// same: the meter's fuse blows. Null where nothing would.
	Consequence *Text `json:"consequence"`
}

// MyMeter answers mymeter: the whole meter, defaults filled in.
type MyMeter struct {
	Modes []MeterMode  `json:"modes"` // in the order of a selector
	Rows  []MeterDatum `json:"rows"`
}

// A MeterMode is one position of the selector.
type MeterMode struct {
	Mode string `json:"mode"`
	Name string `json:"name"` // for people
	// Probes says what Red and Black name: "points"; "wire" (clamp: Red alone, a
	// wire's number); "break" (ma: two sides of what can be opened, or Red alone).
	Probes   string `json:"probes"`
	PowerOff bool   `json:"power_off"` // refused on a live circuit
}

// A MeterDatum is one figure of a meter.
type MeterDatum struct {
	Key     string  `json:"key"`  // to give in Request.MyMeter: "input_ohms"
	Name    string  `json:"name"` // for people
	Unit    string  `json:"unit"` // "ohm", "V", "A", "counts"; empty: 1 is yes, 0 is no
	Value   float64 `json:"value"`
	Typical float64 `json:"typical"`
	Least   float64 `json:"least"` // what is accepted
	Most    float64 `json:"most"`
	Source  string  `json:"source"` // where Typical comes from
}

// Predict answers predict: what the same measurement would show.
type Predict struct {
	Mode    string       `json:"mode"`
	Red     string       `json:"red"`
	Black   string       `json:"black"`
	Healthy Prediction   `json:"healthy"` // without a fault of Each
	Rows    []Prediction `json:"rows"`    // one a fault, in the order of Each
}

// A Prediction is what the display shows under one fault.
type Prediction struct {
	Fault    string   `json:"fault"` // canonical; empty: healthy
	Name     string   `json:"name"`  // sentence
	Shown    string   `json:"shown"`
	Value    *float64 `json:"value"` // null on overload and when refused
	Unit     string   `json:"unit"`
	Overload bool     `json:"overload"`
	Refused  string   `json:"refused,omitempty"`
	Differs  bool     `json:"differs"` // from what the healthy panel shows, on the display
}
