package api

// Opened answers open: a session and what to draw.
type Opened struct {
	Session    int            `json:"session"`
	Name       string         `json:"name"`
	About      string         `json:"about"`
	Document   string         `json:"document"` // canonical text, to keep
	Problems   []Problem      `json:"problems"`
	Conditions []ConditionDef `json:"conditions"`
	Strips     []StripView    `json:"strips"`
	Parts      []PartView     `json:"parts"`
	Devices    []DeviceDef    `json:"devices"`
	Wires      []WireView     `json:"wires"`
	Points     []PointDef     `json:"points"`
	Cautions   []Text         `json:"cautions"` // for this panel's voltages
}

// A ConditionDef is a state of the plant a person can choose.
type ConditionDef struct {
	Name  string   `json:"name"`
	About string   `json:"about"`
	Steps []string `json:"steps"`
}

// A PointDef is a place a probe can touch.
type PointDef struct {
	Point string `json:"point"`
	Ref   string `json:"ref"`   // strip or part
	Field bool   `json:"field"` // out of the panel
}

// A StripView is a strip for drawing, blocks from the left.
type StripView struct {
	Ref    string      `json:"ref"`
	Label  string      `json:"label"`
	Blocks []BlockView `json:"blocks"`
}

// A BlockView is one block.
type BlockView struct {
	Ref     string      `json:"ref"` // "X3:7"
	No      string      `json:"no"`
	Type    string      `json:"type"`
	Symbol  string      `json:"symbol"`
	Label   string      `json:"label"`
	Fuse    string      `json:"fuse"`
	Levels  []LevelView `json:"levels"` // upper first, as seen from the front
	Faults  []string    `json:"faults"` // canonical faults of this block, for what-if
	Isolate bool        `json:"isolate"`
}

// A LevelView is one level of a block. In and Out are the points of its two
// sides, the same where it is one piece of metal.
type LevelView struct {
	Level   int       `json:"level"` // 0 where the block has one
	In      string    `json:"in"`
	Out     string    `json:"out"`
	Cut     string    `json:"cut"` // what lies between its sides: "", "fuse", "blade", "diode"
	InWires []WireEnd `json:"in_wires"`
	OutWire []WireEnd `json:"out_wires"`
	Jumper  int       `json:"jumper"` // blocks of one jumper share a number; 0 without
	// JumperSide is where the bar lies: "in" or "out" on a level whose sides are two
	// pieces of metal, empty on one piece.
	JumperSide string `json:"jumper_side"`
}

// A WireEnd is a wire as seen from one of its ends.
type WireEnd struct {
	No       string `json:"no"`
	Colour   string `json:"colour"`
	Other    string `json:"other"`     // where its other end lands
	OtherTag string `json:"other_tag"` // ISA tag of the part there
}

// A WireView is one wire.
type WireView struct {
	No     string   `json:"no"`
	From   string   `json:"from"`
	To     string   `json:"to"`
	Size   string   `json:"size"`
	Length string   `json:"length"`
	Colour string   `json:"colour"`
	Cable  string   `json:"cable"`
	Core   string   `json:"core"`
	Faults []string `json:"faults"`
}

// A PartView is one part.
type PartView struct {
	Ref       string         `json:"ref"`
	Tag       string         `json:"tag"`
	Kind      string         `json:"kind"`
	KindName  string         `json:"kind_name"` // for people
	Symbol    string         `json:"symbol"`
	Label     string         `json:"label"`
	Field     bool           `json:"field"`
	Process   string         `json:"process"`
	Terminals []TerminalView `json:"terminals"`
	Faults    []string       `json:"faults"`
}

// A TerminalView is one terminal of a part.
type TerminalView struct {
	Point string    `json:"point"`
	Wires []WireEnd `json:"wires"`
}

// A DeviceDef is something that can be dead or work.
type DeviceDef struct {
	Ref     string `json:"ref"`
	Tag     string `json:"tag"`
	Part    string `json:"part"`
	Label   string `json:"label"`
	Kind    string `json:"kind_name"`
	Process string `json:"process"`
}

// Faults answers faults.
type Faults struct {
	Faults []FaultDef `json:"faults"`
}

// A FaultDef is one fault the model knows.
type FaultDef struct {
	Fault string `json:"fault"` // canonical
	Thing string `json:"thing"`
	Class string `json:"class"`
	Name  string `json:"name"` // sentence: "the fuse of X3:7.2 has blown"
}
