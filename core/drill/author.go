package drill

import (
	"halfsplit/core/fault"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// Difficulty is how hard a case is, as far as solving it tells.
type Difficulty struct {
	Best     Best
	Suspects int    // that the call leaves
	Alike    int    // faults nobody tells from the hidden ones, those apart
	Traps    []Trap // one of each code that a solved state proves
	Grade    int    // 1 to 4
	Again    int    // variations
}

// Difficulty reckons how hard a case is. What Prepare has not solved yet is solved
// now.
func (c *Case) Difficulty() (Difficulty, error) {
	e, err := c.Rig.engine(c.At)
	if err != nil {
		return Difficulty{}, err
	}
	d := Difficulty{Best: c.best(e), Traps: c.traps()}
	a := e.Find(c.toldTo(e))
	d.Suspects, _ = living(e, &a, nil)
	for _, f := range c.Faults {
		d.Alike += len(c.alike(e, f)) - 1
	}
	d.Again = len(c.variations())
	d.Grade = grade(&d, len(c.Faults), len(c.Drill.Hidden.Drawing))
	return d, nil
}

// variations lists them, whichever one this is.
func (c *Case) variations() [][]*fault.Fault {
	original, err := c.doc.Set(c.Rig, 0)
	if err != nil {
		return nil
	}
	s := setter{doc: c.doc, c: original}
	return s.elsewhere()
}

// Unproved is the problem of a declared trap that no solved state proves.
func (c *Case) Unproved(t Trap) []panel.Problem {
	for i := range c.Drill.Hidden.Traps {
		if c.Drill.Hidden.Traps[i] == t {
			return []panel.Problem{c.doc.Source.Problem(at("hidden.traps", i), "drill-trap-unproved", t.Code)}
		}
	}
	return nil
}

// grade reckons a grade from steps, traps and what is out of the ordinary: choices,
// after the order trainers give, from one clean open to two faults and to nothing
// wrong at all.
func grade(d *Difficulty, faults, drawn int) int {
	g := 1
	if len(d.Best.Steps) > 4 {
		g++
	}
	if len(d.Best.Steps) > 8 {
		g++
	}
	if len(d.Traps) > 1 {
		g++
	}
	if faults != 1 || drawn > 0 {
		g += 2
	}
	return min(g, 4)
}

// traps looks for one trap of each code: between every point of the panel and the
// returns and earths, and at every device and fuse.
func (c *Case) traps() (list []Trap) {
	for _, code := range TrapCodes {
		if t, ok := c.trap(code); ok {
			list = append(list, t)
		}
	}
	return list
}

// asked says what a trap code needs: two points, and of what kind Ref is.
func asked(code string) (points, device, fuse bool) {
	switch code {
	case TrapTwoSided, TrapGhost, TrapDrawing, TrapPolarity, TrapBetween:
		return true, false, false
	case TrapAsMeant, TrapSecond, TrapFull, TrapStillOn, TrapPlausible:
		return false, true, false
	case TrapIndicator:
		return false, false, true
	}
	return false, false, false // those with points and a thing are the author's to name
}

func (c *Case) trap(code string) (Trap, bool) {
	net := c.Rig.Model.Net
	points, device, fuse := asked(code)
	if device {
		for _, d := range net.Devices {
			if t := (Trap{Code: code, Ref: d.Ref}); c.Proved(t) {
				return t, true
			}
		}
	}
	if fuse {
		for _, ref := range c.fuses() {
			if t := (Trap{Code: code, Ref: ref}); c.Proved(t) {
				return t, true
			}
		}
	}
	if points {
		for _, black := range c.returns() {
			for _, red := range net.Points {
				if red.Hidden || red.Field || red.Node == black.Node {
					continue
				}
				if t := (Trap{Code: code, Red: red.Name, Black: black.Name}); c.Proved(t) {
					return t, true
				}
			}
		}
	}
	return Trap{}, false
}

// returns are the terminals where sources of direct voltage take their current back.
func (c *Case) returns() (list []parts.Point) {
	for _, place := range c.Rig.Model.Net.Places {
		if place.Return && place.Pole == parts.Negative {
			if p, ok := c.Rig.Model.Net.FindPoint(place.Name); ok {
				list = append(list, p)
			}
		}
	}
	return list
}
