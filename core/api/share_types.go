package api

// Packed answers pack.
type Packed struct {
	Link  string   `json:"link"`  // for a message or the fragment of a link
	Parts []string `json:"parts"` // texts of codes, with Size; capital letters and digits, for the alphanumeric mode of QR codes
	Bytes int      `json:"bytes"` // packed
	// Document is what is packed: as it was, but for the editions of a panel.
	Document string `json:"document"`
	Edition  string `json:"edition"` // names this state; to be remembered with the panel it is of
}

// Unpacked answers unpack. While codes are missing, Document is empty and Missing
// says which.
type Unpacked struct {
	Kind     string `json:"kind"` // "panel", "drill", "job"
	Name     string `json:"name"`
	Document string `json:"document"`
	Digest   string `json:"digest"`  // equal where two copies are the same
	Edition  string `json:"edition"` // the same, shorter
	// Editions are the states a panel came from, newest last: two copies that share
	// one are of one panel, and the newest shared is what Merge wants as Base.
	Editions []string `json:"editions"`
	Panel    string   `json:"panel"` // of a job: its panel as drawn, without what was found; empty where it has none
	Count    int      `json:"count"` // codes in all; 0 of anything but codes
	Have     []int    `json:"have"`
	Missing  []int    `json:"missing"`
	Damaged  int      `json:"damaged"` // codes that were read wrong
	Foreign  int      `json:"foreign"` // codes of another set
	Text     Text     `json:"text"`    // what it comes to
}

// Diff answers diff: what is in Other and not like Text.
type Diff struct {
	Same        bool         `json:"same"`
	Differences []Difference `json:"differences"`
}

// A Difference is one thing in which two documents differ. Its sentence is the
// Text.
type Difference struct {
	Path  string `json:"path"`  // JSON pointer, things of a list by name
	What  string `json:"what"`  // "added", "removed", "changed", "order"
	Thing string `json:"thing"` // for people: "wire W12"
	Field string `json:"field"`
	Was   string `json:"was"`
	Is    string `json:"is"`
	Text
}

// Merge answers merge.
type Merge struct {
	Document  string       `json:"document"`
	Digest    string       `json:"digest"`
	Taken     []Difference `json:"taken"`     // what came from Other without a conflict
	Conflicts []Conflict   `json:"conflicts"` // all, decided or not
	Open      int          `json:"open"`      // conflicts without a choice
	Problems  []Problem    `json:"problems"`  // of the document, where it is a panel
}

// A Conflict is a difference that a person decides: Was is ours, Is is theirs.
// Choices, by its path, take "ours", "theirs" or, of two texts, "both".
type Conflict struct {
	Difference
	Base   string `json:"base"`
	Taken  string `json:"taken"` // what stands in the document
	Both   bool   `json:"both"`  // "both" may be chosen
	Chosen bool   `json:"chosen"`
}
