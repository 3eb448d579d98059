package meter

// A Meter is the instrument a person holds, as data. Typical is a common one; the
// rows of Data name every figure and say where the typical one comes from.
type Meter struct {
	Input      float64 // ohms, voltage modes
	LowInput   float64 // ohms, low-impedance mode
	Tester     float64 // ohms, two-pole tester
	TesterLoad float64 // ohms its load button lays beside that
	MostVolts  float64 // above it the display shows OL

	Burden float64 // ohms of the mA range, leads and fuse included
	Fuse   float64 // amperes, of the mA range

	OhmsVolts float64 // with open leads
	OhmsAmps  float64 // with the leads together, lowest range
	MostOhms  float64 // above it the display shows OL
	LiveVolts float64 // above it resistance is refused
	Leads     float64 // ohms the display does not take off

	BeepVolts float64
	BeepAmps  float64
	BeepBelow float64 // ohms

	DiodeVolts float64
	DiodeAmps  float64
	DiodeMost  float64 // volts; above it the display shows OL

	Counts                                    float64 // of a range, before the next one is taken
	StepDC, StepAC, StepOhms, StepMA, StepAmp float64 // last digit of the lowest range: V, V, ohms, A, A

	TrueRMS float64 // 1: reads any wave right; 0: averaging, right on a sine
}

// A Datum is one figure of a meter.
type Datum struct {
	Key         string // "input_ohms"
	Unit        string // "ohm", "V", "A", "counts"; empty: yes or no
	Least, Most float64
	field       func(*Meter) *float64
}

// Data lists the figures of a meter in the order they are shown. Names and sources
// are in package words under "mymeter." and the key.
var Data = []Datum{
	{"input_ohms", "ohm", 1e5, 1e11, func(m *Meter) *float64 { return &m.Input }},
	{"lowz_ohms", "ohm", 100, 1e6, func(m *Meter) *float64 { return &m.LowInput }},
	{"tester_ohms", "ohm", 1e3, 1e7, func(m *Meter) *float64 { return &m.Tester }},
	{"tester_load_ohms", "ohm", 100, 1e6, func(m *Meter) *float64 { return &m.TesterLoad }},
	{"most_volts", "V", 100, 1500, func(m *Meter) *float64 { return &m.MostVolts }},
	{"ma_ohms", "ohm", 1e-3, 1e4, func(m *Meter) *float64 { return &m.Burden }},
	{"ma_fuse_amps", "A", 0.05, 20, func(m *Meter) *float64 { return &m.Fuse }},
	{"ohms_volts", "V", 0.1, 15, func(m *Meter) *float64 { return &m.OhmsVolts }},
	{"ohms_amps", "A", 1e-6, 0.3, func(m *Meter) *float64 { return &m.OhmsAmps }},
	{"most_ohms", "ohm", 1e5, 1e9, func(m *Meter) *float64 { return &m.MostOhms }},
	{"live_volts", "V", 0.001, 2, func(m *Meter) *float64 { return &m.LiveVolts }},
	{"lead_ohms", "ohm", 0, 2, func(m *Meter) *float64 { return &m.Leads }},
	{"beep_volts", "V", 0.1, 15, func(m *Meter) *float64 { return &m.BeepVolts }},
	{"beep_amps", "A", 1e-6, 0.3, func(m *Meter) *float64 { return &m.BeepAmps }},
	{"beep_below_ohms", "ohm", 1, 1000, func(m *Meter) *float64 { return &m.BeepBelow }},
	{"diode_volts", "V", 0.5, 15, func(m *Meter) *float64 { return &m.DiodeVolts }},
	{"diode_amps", "A", 1e-5, 0.1, func(m *Meter) *float64 { return &m.DiodeAmps }},
	{"diode_most_volts", "V", 0.5, 15, func(m *Meter) *float64 { return &m.DiodeMost }},
	{"counts", "counts", 1000, 1e6, func(m *Meter) *float64 { return &m.Counts }},
	{"vdc_step", "V", 1e-5, 1, func(m *Meter) *float64 { return &m.StepDC }},
	{"vac_step", "V", 1e-5, 1, func(m *Meter) *float64 { return &m.StepAC }},
	{"ohms_step", "ohm", 1e-3, 10, func(m *Meter) *float64 { return &m.StepOhms }},
	{"ma_step", "A", 1e-8, 1e-2, func(m *Meter) *float64 { return &m.StepMA }},
	{"clamp_step", "A", 1e-5, 1, func(m *Meter) *float64 { return &m.StepAmp }},
	{"true_rms", "", 0, 1, func(m *Meter) *float64 { return &m.TrueRMS }},
}

// Of gives the figure of m.
func (d *Datum) Of(m Meter) float64 { return *d.field(&m) }

// With gives m with this figure; ok is false when v is out of its bounds or is no
// number.
func (d *Datum) With(m Meter, v float64) (_ Meter, ok bool) {
	if !(v >= d.Least && v <= d.Most) || d.Unit == "" && v != 0 && v != 1 {
		return m, false
	}
	*d.field(&m) = v
	return m, true
}

// Typical is a hand-held multimeter with a two-pole tester and a clamp for small
// currents beside it. Where each figure comes from is told by package words, under
// "mymeter.KEY.source".
var Typical = Meter{
	Input: 10e6, LowInput: 3e3, Tester: 200e3, TesterLoad: 5e3, MostVolts: 1000,
	Burden: 1.5, Fuse: 0.5,
	OhmsVolts: 1.3, OhmsAmps: 0.7e-3, MostOhms: 50e6, LiveVolts: 0.1,
	BeepVolts: 2.5, BeepAmps: 0.5e-3, BeepBelow: 50,
	DiodeVolts: 3, DiodeAmps: 1e-3, DiodeMost: 2,
	Counts: 6000, StepDC: 0.01, StepAC: 0.1, StepOhms: 0.1, StepMA: 1e-5, StepAmp: 1e-4,
	TrueRMS: 1,
}

// Pressed is the meter with the load button of its tester pressed.
func (m Meter) Pressed() Meter {
	m.Tester = 1 / (1/m.Tester + 1/m.TesterLoad)
	return m
}

// input is the resistance the meter lays between its probes in a voltage mode.
func (m Meter) input(mode Mode) float64 {
	switch mode {
	case LowZ:
		return m.LowInput
	case Tester:
		return m.Tester
	}
	return m.Input
}
