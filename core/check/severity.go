package check

// A Severity says how much a problem matters.
type Severity string

// The severities.
const (
	Error   Severity = "error"   // the model cannot be built as drawn, or the drawing is unsafe
	Warning Severity = "warning" // doubtful
	Note    Severity = "note"    // something is left unsaid
)

// SeverityOf gives the severity of a code of this package or of package panel.
// A code that is not in the table is an error.
func SeverityOf(code string) Severity {
	if s, ok := severities[code]; ok {
		return s
	}
	return Error
}

// severities lists every code that is no error.
var severities = map[string]Severity{
	"bonded-after-all":       Warning,
	"bonding-unstated":       Warning,
	"cable-lengths-differ":   Warning,
	"channels-needless":      Warning,
	"clamp-crowded":          Warning,
	"class-unstated":         Warning,
	"coil-for-ac":            Warning,
	"coil-for-dc":            Warning,
	"colour-unknown":         Warning,
	"contacts-needless":      Warning,
	"core-without-cable":     Warning,
	"earth-not-green-yellow": Warning,
	"edit-time-unreadable":   Warning,
	"field-length-missing":   Warning,
	"indicator-voltage":      Warning,
	"isolation-unstated":     Note,
	"jumper-order":           Warning,
	"jumper-skips":           Note,
	"length-missing":         Note,
	"letter-unusual":         Note,
	"line-neutral-swapped":   Warning,
	"load-half-wired":        Warning,
	"load-not-fed":           Warning,
	"load-voltage":           Warning,
	"name-missing":           Warning,
	"no-source":              Warning,
	"normal-missing":         Warning,
	"output-switches-minus":  Warning,
	"output-switches-plus":   Warning,
	"part-unused":            Warning,
	"polarity-reversed":      Warning,
	"size-missing":           Warning,
	"strip-empty":            Warning,
	"supplies-in-parallel":   Warning,
	"supplies-in-series":     Warning,
	"supply-unfused":         Warning,
	"wire-on-one-metal":      Warning,
	"wire-tight":             Warning,
}
