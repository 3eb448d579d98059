package parts

// kinds is the catalogue, in the order people are shown it. A new kind is added
// here and in a file of its own; nowhere else.
var kinds = []*Kind{
	feedThrough, ground, fuseBlock, disconnect, doubleLevel, doubleLevelFused,
	tripleLevel, tripleLevelGround, diodeBlock, ledBlock,
	mains, dcSupply, battery, fuse, breaker, rail, peBar,
	relay, button, selector, limitSwitch, floatSwitch, flowSwitch, plainSwitch,
	lamp, solenoid, motor, transmitter2, transmitter4,
	digitalInput, digitalOutput, analogueInput, resistor, diode,
	proximityPNP, proximityNPN, proximity2, redundancy, insulationMonitor, boundary,
	namurSensor, namurAmplifier, triacOutput, relayOutput, snubber, safetyRelay,
	controlTransformer, transmitter3, rtd, rtdInput, thermocouple, thermocoupleInput,
	currentTransformer, currentTransformerBlock, ammeter,
}

var byName = func() map[string]*Kind {
	m := make(map[string]*Kind, len(kinds))
	for _, k := range kinds {
		m[k.Name] = k
	}
	return m
}()

// Lookup gives the kind of that name.
func Lookup(name string) (*Kind, bool) {
	k, ok := byName[name]
	return k, ok
}

// Kinds gives the whole catalogue, in the order people are shown it. The slice
// is the caller's own.
func Kinds() []*Kind { return append([]*Kind(nil), kinds...) }
