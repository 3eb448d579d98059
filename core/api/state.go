package api

import (
	"math"
	"strings"

	"halfsplit/core/parts"
	"halfsplit/core/sim"
	"halfsplit/core/unit"
	"halfsplit/core/words"
)

func (s *session) faults(req Request) (Response, *Error) {
	list := &Faults{Faults: []FaultDef{}}
	for i := range s.set.Faults {
		list.Faults = append(list.Faults, faultDef(req.Lang, s.set.Faults[i].Mode))
	}
	return Response{Faults: list}, nil
}

func faultDef(lang string, m *parts.Mode) FaultDef {
	return FaultDef{Fault: m.Key(), Thing: m.Thing, Class: m.Class, Name: faultName(lang, m)}
}

func faultName(lang string, m *parts.Mode) string {
	value := m.Value
	if ohms, err := unit.Parse(value, unit.Resistance); err == nil {
		value = unit.Format(ohms, unit.Resistance)
	}
	thing := both(m.Thing)
	if wire, at, ok := strings.Cut(thing, "@"); ok && !strings.Contains(at, "@") {
		thing = words.Say(lang, "name.wire-end", wire, at)
	}
	return words.Say(lang, "fault."+m.Name, thing, value)
}

// both writes "W12~W13" as people say it.
func both(thing string) string { return strings.ReplaceAll(thing, "~", " – ") }

func (s *session) state(req Request) (Response, *Error) {
	e, err := s.experiment(req)
	if err != nil {
		return Response{}, err
	}
	x, err := e.enter(req.Lang)
	if err != nil {
		return Response{}, err
	}
	defer e.base.Leave()
	st := &State{Points: []PointState{}, Devices: []DeviceState{}, Lights: []DeviceState{}, Flags: flags(req.Lang, x)}
	islands := x.Islands(sim.Bonded)
	for _, p := range s.model.Net.Points {
		if p.Hidden {
			continue
		}
		ac := x.VAC(p.Node)
		ps := PointState{Point: p.Name, VDC: round(x.V(p.Node), 4), Floating: islands[p.Node] != islands[0]}
		if ps.VAC = round(math.Sqrt(float64(real(ac)*real(ac))+float64(imag(ac)*imag(ac))), 3); ps.VAC > 0.01 {
			ps.VACDeg = degrees(ac)
		}
		st.Points = append(st.Points, ps)
	}
	for i, d := range s.model.Net.Devices {
		st.Devices = append(st.Devices, deviceState(req.Lang, d.Ref, x.Status(i)))
	}
	for i, l := range s.model.Net.Lights {
		st.Lights = append(st.Lights, deviceState(req.Lang, l.Ref, x.Light(i)))
	}
	return Response{State: st}, nil
}

var gradeNames = [...]string{parts.Off: "off", parts.Weak: "weak", parts.On: "on"}

func deviceState(lang, ref string, st parts.Status) DeviceState {
	d := DeviceState{Ref: ref, State: st.State, Text: words.Say(lang, "state."+st.State), Grade: gradeNames[st.Grade],
		Volts: round(st.Volts, 3), Amps: round(st.Amps, 6)}
	if st.Signal != 0 {
		ma := round(st.Signal, 3)
		d.Signal = &ma
	}
	if st.Celsius != 0 {
		degrees := round(st.Celsius, 1)
		d.Celsius = &degrees
	}
	return d
}

// flags tell what makes figures doubtful.
func flags(lang string, x *sim.Machine) []Text {
	list := []Text{}
	net := x.Model.Net
	if c := x.Cycle(); c != nil {
		var members []string
		for _, m := range c.Members {
			members = append(members, net.Elements[m].Ref)
		}
		code := "flag.chattering"
		if c.PeriodMS == 0 {
			code = "flag.unsettled"
		}
		list = append(list, say(lang, code, strings.Join(members, ", ")))
	}
	for i, d := range net.Devices {
		if x.Status(i).Mixed {
			list = append(list, say(lang, "flag.mixed", d.Ref))
		}
	}
	return list
}
