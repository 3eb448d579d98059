package circuit_test

import (
	"fmt"

	"halfsplit/core/circuit"
)

// A 24 V supply with 0 V bonded to Earth feeds a coil of 576 ohm through a
// fuse. What does a meter show at the coil when the fuse has blown?
func Example() {
	const supply, fuse, coil, bond = 0, 1, 2, 3
	const plus, fed, zero circuit.Node = 1, 2, 3
	plan := circuit.NewPlan(4, []circuit.Ends{{A: zero, B: plus}, {A: plus, B: fed}, {A: fed, B: zero}, {A: zero, B: circuit.Earth}})
	s := plan.DC([]float64{0, 1e-9, 1e-9, 1e-9}, []circuit.Value{
		supply: {G: 100, E: 24},
		fuse:   {G: 20},
		coil:   {G: 1. / 576},
		bond:   {G: 1000},
	})
	if err := s.Solve(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("healthy: %.2f V, %.1f mA\n", s.V(fed)-s.V(zero), 1000*s.I(coil))
	s.Checkpoint()

	s.Set(fuse, circuit.Value{}) // open
	meter := s.Link(fed, zero, circuit.Value{G: 1e-7})
	if err := s.Solve(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("blown: %.2f V, %.1f mA\n", s.LinkI(meter)/1e-7, 1000*s.I(coil))
	fmt.Println("moved: nodes", s.Moved(nil, 1))

	s.Revert()
	fmt.Printf("again: %.2f V\n", s.V(fed)-s.V(zero))
	// Output:
	// healthy: 24.00 V, 41.7 mA
	// blown: 0.00 V, 0.0 mA
	// moved: nodes [2]
	// again: 24.00 V
}

// The resistance between two corners of a square of 100 ohm resistors: 100 ohm
// beside 300 ohm.
func ExampleDC_Z() {
	plan := circuit.NewPlan(5, []circuit.Ends{{A: 1, B: 2}, {A: 2, B: 3}, {A: 3, B: 4}, {A: 4, B: 1}})
	g := circuit.Value{G: 1. / 100}
	s := plan.DC([]float64{0, 1e-9, 1e-9, 1e-9, 1e-9}, []circuit.Value{g, g, g, g})
	if err := s.Solve(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f ohm\n", s.Z(1, 2))
	// Output: 75.0 ohm
}

// A 100 W heater and a solenoid of 120 + j160 ohm on 230 V.
func ExamplePlan_AC() {
	plan := circuit.NewPlan(2, []circuit.Ends{{A: circuit.Earth, B: 1}, {A: 1, B: circuit.Earth}, {A: 1, B: circuit.Earth}})
	s := plan.AC([]complex128{0, 1e-9}, []circuit.ACValue{{Y: 1000, E: 230}, {Y: 1. / 529}, {Y: 1 / (120 + 160i)}})
	if err := s.Solve(); err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("heater %.2f A, solenoid %.2f A\n", s.I(1), s.I(2))
	// Output: heater (0.43+0.00i) A, solenoid (0.69-0.92i) A
}
