package parts

// Failure rates, in failures per million hours. Only ratios matter to a ranking.
//
// Sources: MIL-HDBK-217F appendix A parts-count rates, ground fixed, times the
// multiplier for commercial quality; shared among modes by MIL-HDBK-338B. Where
// neither has a figure the choice of the model is marked so.
const (
	rateRelay       = 2.5  // MIL-HDBK-217F: general-purpose relay 0.28 × 9
	rateButton      = 0.06 // MIL-HDBK-217F: push-button 0.0030 × 20
	rateSensitive   = 8.8  // MIL-HDBK-217F: sensitive (limit) switch 0.44 × 20
	rateRotary      = 0.6  // choice: a plain selector between push-button and rotary wafer switch
	rateBreaker     = 1.9  // MIL-HDBK-217F: thermal breaker 0.23 × 8.4
	rateLamp        = 0.7  // choice: LED pilot light, a tenth of the filament lamp's 7.8
	rateSupply      = 3.0  // choice: electronic supply, as a small assembly
	rateSolenoid    = 2.0  // choice: between relay coil and contactor
	rateSensor      = 5.0  // choice: field instrument with electronics
	rateChannel     = 0.3  // choice: one channel of a controller card
	rateMotor       = 4.0  // choice
	ratePassive     = 0.05 // choice
	rateDiode       = 0.1  // choice
	rateBattery     = 3.0  // choice
	rateTransformer = 1.0  // choice: a small transformer, as a winding
	rateElement     = 2.0  // choice: a bare sensing element in its pocket
	rateMonitor     = 2.0  // choice: a small electronic relay

	// Connections. MIL-HDBK-217F gives a crimp 0.00052 × 1 to 20 by workmanship;
	// screw joints at the field end count ten times that (choice, after insurers'
	// reports that name loose terminations first).
	rateClamp      = 0.05
	rateClampField = 0.5
	rateInsulation = 0.02 // clamped on the insulation: workmanship, choice
	RateMoved      = 0.02 // landed one terminal off: workmanship, choice
	RateSwapped    = 0.01 // choice
	rateWire       = 0.01 // inside the panel: choice
	rateWirePerM   = 0.02 // a field cable, per metre: choice
	RateShort      = 0.01 // between conductors of one cable, choice; inside an enclosure ISO 13849-2 lets it be excluded
	rateJumper     = 0.03 // choice
	rateFoot       = 0.03 // choice

	// A blown link is usually an effect; its weight is that of the overcurrents
	// that blow it, plus the 0.08 × 0.02 of a premature opening (MIL-HDBK-338B,
	// MIL-HDBK-217F). The sum is a choice.
	rateFuse  = 1.0
	rateLever = 0.3 // left open after work: choice
)

// Shares of a part's rate among its modes, MIL-HDBK-338B unless marked.
const (
	shareRelayDead     = 0.55 // fails to operate
	shareRelaySpurious = 0.26
	shareRelayShort    = 0.19
	shareSwitchOpen    = 0.65
	shareSwitchShort   = 0.35 // sticking 0.19 and short 0.16
	shareCoilOpen      = 0.42
	shareCoilShort     = 0.42
	shareOpen          = 0.61 // connection: open
	shareResistive     = 0.23 // connection: poor contact
)
