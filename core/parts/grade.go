package parts

// grades says how far a device in each state does its work. States not listed
// are weak: something flows, but not what should.
var grades = map[string]Grade{
	"off": Off, "dark": Off, "released": Off, "stopped": Off, "no-current": Off,
	"ready": Off, "discrepant": Off,
	"on": On, "lit": On, "operated": On, "running": On, "measuring": On, "standby": On,
	"watching": On,
}

// GradeOf gives the grade of a state by its code.
func GradeOf(state string) Grade {
	if g, ok := grades[state]; ok {
		return g
	}
	return Weak
}
