package api

// Operations of drills. Those marked long are done in steps, as others are.
const (
	OpDrills       = "drills"        // Drills: the embedded ones
	OpDrillOpen    = "drill-open"    // Text or Demo, Seed → Drill
	OpDrillAct     = "drill-act"     // Session, Acts → DrillState
	OpDrillDebrief = "drill-debrief" // long: Session, Acts → DrillDebrief
	OpDrillAuthor  = "drill-author"  // long: Text or Demo → DrillAuthored
	OpDrillShort   = "drill-short"   // Session of a panel, At, Form, Seed, Marks → DrillShort

)

// A DrillAct is one thing the learner does; the fields that count depend on Kind:
//
//	look thing · ask thing (number of a question, from 1) · operate step · pull thing
//	read mode red black why · prove-tester [red black] · prove-dead red black
//	lock thing · unlock thing · tighten thing · lift thing · land thing · replace thing
//	bypass red black · call thing class · repair · prove-function · done · give-up
type DrillAct struct {
	Kind    string `json:"kind"`
	Thing   string `json:"thing,omitempty"`
	Step    string `json:"step,omitempty"` // "press S2"
	Mode    string `json:"mode,omitempty"`
	Red     string `json:"red,omitempty"`
	Black   string `json:"black,omitempty"`
	Why     string `json:"why,omitempty"`     // "feed" "return" "half-split" "what-changed" "proof" "guess": asked before a reading
	Class   string `json:"class,omitempty"`   // "open" "resistive" "short" "wrong-place" "part" "nothing"
	Seconds int    `json:"seconds,omitempty"` // since the attempt began, by the phone's clock
}

// Drills answers drills.
type Drills struct {
	Drills []DrillDef `json:"drills"`
}

// A DrillDef is one embedded drill.
type DrillDef struct {
	Demo      string `json:"demo"` // to open it by
	Name      string `json:"name"`
	Grade     int    `json:"grade"`
	Panel     string `json:"panel"` // name of its panel
	Complaint string `json:"complaint"`
}

// A Drill answers drill-open: all that the learner is given.
type Drill struct {
	Session   int           `json:"session"`
	Name      string        `json:"name"`
	Grade     int           `json:"grade"`
	Seed      int           `json:"seed"` // 0 as written; another one: the same kind elsewhere
	Complaint string        `json:"complaint"`
	At        string        `json:"at"` // what the plant is said to be doing
	Dead      []string      `json:"dead"`
	Works     []string      `json:"works"`
	Sees      []DrillSeen   `json:"sees"`  // states the caller saw
	Reads     []DrillRead   `json:"reads"` // what somebody has measured
	Questions []string      `json:"questions"`
	Goals     []string      `json:"goals"`
	Marked    []string      `json:"marked"` // terminals nobody opens or lifts
	Whys      []DrillChoice `json:"whys"`
	Classes   []DrillChoice `json:"classes"`
	Gates     []DrillGate   `json:"gates"`
	Panel     *Opened       `json:"panel"` // as the learner's drawing shows it; its session is 0
	State     *DrillState   `json:"state"` // before the first act
}

// A DrillSeen is a state the caller saw.
type DrillSeen struct {
	Ref   string `json:"ref"`
	State string `json:"state"` // code
	Text  string `json:"text"`
}

// A DrillRead is a reading somebody else took.
type DrillRead struct {
	Mode  string `json:"mode"`
	Red   string `json:"red"`
	Black string `json:"black"`
	Shown string `json:"shown"`
}

// A DrillChoice is one of a few answers, for a tap.
type DrillChoice struct {
	Code string `json:"code"`
	Text string `json:"text"`
}

// A DrillGate is something no score makes up for.
type DrillGate struct {
	Gate   string `json:"gate"`
	Effect string `json:"effect"` // "end" "cap" "note"
	Text   string `json:"text"`
	Act    int    `json:"act"` // index into DrillState.Log; -1 where it is only announced
}

// A DrillState answers drill-act: what is seen after all acts, and what can be done.
type DrillState struct {
	Log     []DrillEntry `json:"log"`
	Refused *Error       `json:"refused"` // the last act, where it cannot be done: it is not in Log
	Ended   string       `json:"ended"`   // "" "done" "gave-up" "gate"
	Minutes float64      `json:"minutes"`
	Powered bool         `json:"powered"`
	Lifted  []string     `json:"lifted"`
	Gates   []DrillGate  `json:"gates"` // fallen into so far
	Offers  []DrillOffer `json:"offers"`
}

// A DrillEntry is one act with what came of it.
type DrillEntry struct {
	Act     DrillAct    `json:"act"`
	Text    string      `json:"text"` // what was done
	Seen    []Text      `json:"seen"`
	Reading *DrillMeter `json:"reading"` // null where no meter showed anything
	Minutes float64     `json:"minutes"`
	Gates   []string    `json:"gates"`
}

// A DrillMeter is what the learner's meter showed.
type DrillMeter struct {
	Value *float64 `json:"value"` // null on overload
	Unit  string   `json:"unit"`
	Shown string   `json:"shown"`
}

// A DrillOffer is a kind of act that is possible now. Targets are what it can be done
// to: questions by number, steps, modes, classes, things; empty where anything of the
// panel will do.
type DrillOffer struct {
	Kind    string   `json:"kind"`
	Text    string   `json:"text"`
	Targets []string `json:"targets"`
}

// A DrillDebrief answers drill-debrief.
type DrillDebrief struct {
	Result      string      `json:"result"` // "found" "guessed" "partly" "not-found" "capped" "gate-ended"
	Text        string      `json:"text"`
	Truth       []FaultDef  `json:"truth"`
	Because     string      `json:"because"` // the thing that explains it, where nothing is wrong
	Parts       []DrillPart `json:"parts"`   // of the score; there is no sum
	Gates       []DrillGate `json:"gates"`
	Steps       []DrillStep `json:"steps"`
	Plan        []DrillPlan `json:"plan"` // the best plan
	PlanMinutes float64     `json:"plan_minutes"`
	Lessons     []Text      `json:"lessons"`
	Traps       []Text      `json:"traps"`
	Drawing     []Text      `json:"drawing"` // where the drawing was wrong
	Explanation string      `json:"explanation"`
	Sources     []string    `json:"sources"`
	NextSeed    int         `json:"next_seed"` // for the same kind again, elsewhere; 0 where there is none
}

// A DrillPart is one part of the score.
type DrillPart struct {
	Code   string `json:"code"`
	Text   string `json:"text"`
	Points int    `json:"points"`
	Of     int    `json:"of"`
	Facts  []Text `json:"facts"`
}

// A DrillStep is one look or reading, seen from what was known before it.
type DrillStep struct {
	Entry   int      `json:"entry"`   // index into DrillState.Log
	Verdict string   `json:"verdict"` // "useful" "little" "proof" "redundant" "repeated" "cannot-help" "unjudged"
	Text    string   `json:"text"`
	Why     string   `json:"why"`
	Bits    float64  `json:"bits"`
	Before  int      `json:"before"` // suspects alive
	After   int      `json:"after"`
	Alive   []string `json:"alive"` // the likeliest of them afterwards
	Best    *Next    `json:"best"`  // what would have been best there; null where nothing was left to ask
}

// A DrillPlan is one step of the best plan.
type DrillPlan struct {
	Text  string `json:"text"`
	With  string `json:"with"`  // what to have on
	Shown string `json:"shown"` // what it shows here
}

// DrillAuthored answers drill-author: how hard a drill is, and the file to hand out.
type DrillAuthored struct {
	Problems []Problem `json:"problems"` // then the rest is empty
	Steps    int       `json:"steps"`    // of the best plan
	Readings int       `json:"readings"`
	Minutes  float64   `json:"minutes"`
	Alike    int       `json:"alike"` // faults nobody tells from the hidden ones, those apart
	Suspects int       `json:"suspects"`
	Found    bool      `json:"found"` // the best plan comes upon all that is hidden
	Traps    []Text    `json:"traps"` // that solved states prove
	Grade    int       `json:"grade"` // as reckoned; the document has the author's own
	Again    int       `json:"again"` // variations there are
	Sealed   string    `json:"sealed"`
}

// DrillMarks are a learner's answers to a short exercise.
type DrillMarks struct {
	Each   []string `json:"each,omitempty"` // possible: "possible" "impossible"; predict: "source" "zero" "ghost"
	Choice int      `json:"choice"`         // choose: index into options
	Means  [][]int  `json:"means,omitempty"`
}

// A DrillShort answers drill-short: an exercise without an attempt, made from the
// session's panel by seed; with Marks in the request it is graded too.
type DrillShort struct {
	Form     string        `json:"form"` // "possible" "predict" "choose"
	Seed     int           `json:"seed"`
	Text     string        `json:"text"`     // what is asked
	Given    []Text        `json:"given"`    // what is known
	Items    []DrillItem   `json:"items"`    // to mark: possible, predict
	Answers  []DrillChoice `json:"answers"`  // to mark them with
	Options  []DrillOption `json:"options"`  // of choose
	Suspects []string      `json:"suspects"` // of choose: what an outcome can point to
	Marks    []DrillMark   `json:"marks"`    // after grading: an item each; of choose the choice, then an outcome each
	Right    int           `json:"right"`
	Truth    string        `json:"truth"` // after grading: what was wrong
}

// A DrillItem is one thing to mark.
type DrillItem struct {
	Text  string `json:"text"`
	Fault string `json:"fault"` // of possible
	Red   string `json:"red"`   // of predict
	Black string `json:"black"`
}

// A DrillOption is one step to choose, with what it may show.
type DrillOption struct {
	Text     string   `json:"text"`
	Outcomes []string `json:"outcomes"`
}

// A DrillMark is the verdict on one answer.
type DrillMark struct {
	Right bool   `json:"right"`
	Want  string `json:"want"`
	Text  string `json:"text"`
}
