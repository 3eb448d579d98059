package api

import (
	"strings"

	"halfsplit/core/meter"
	"halfsplit/core/parts"
	"halfsplit/core/words"
)

func (s *session) meter(req Request) (Response, *Error) {
	e, err := s.experiment(req)
	if err != nil {
		return Response{}, err
	}
	mode := meter.Mode(req.Mode)
	if !known(mode) {
		bad := problem(req.Lang, "api.unknown-mode", req.Mode, modeNames())
		bad.Choices = strings.Split(modeNames(), ", ")
		return Response{}, bad
	}
	var red, black parts.Point
	wire := -1
	if mode == meter.Clamp {
		if wire = s.wireBranch(req.Red); wire < 0 {
			return Response{}, problem(req.Lang, "api.clamp-needs-wire", req.Red)
		}
	} else {
		if red, err = s.point(req.Lang, req.Red); err != nil {
			return Response{}, err
		}
		if black, err = s.point(req.Lang, req.Black); err != nil {
			return Response{}, err
		}
	}
	x, err := e.enter(req.Lang)
	if err != nil {
		return Response{}, err
	}
	defer e.base.Leave()
	out := &Meter{Mode: req.Mode, Red: req.Red, Black: req.Black, Disturbs: []Text{}}
	var r meter.Reading
	if mode == meter.Clamp {
		r = meter.Current(x, wire)
	} else {
		var refused *meter.Refusal
		if r, refused = meter.Typical.Read(x, mode, red.Node, black.Node); refused != nil {
			out.Refused = words.Say(req.Lang, refused.Code, refused.Args...)
			out.Hint = words.Hint(req.Lang, refused.Code, refused.Args...)
			return Response{Meter: out}, nil
		}
		out.Red, out.Black = red.Name, black.Name
	}
	out.Unit, out.Shown, out.Overload = r.Unit, r.Shown, r.Overload
	if !r.Overload {
		v := round(r.Value, 6)
		out.Value = &v
	}
	for _, d := range r.Disturbs {
		ref := s.model.Net.Devices[d.Device].Ref
		out.Disturbs = append(out.Disturbs, say(req.Lang, "meter.disturbs", ref, words.Say(req.Lang, "state."+d.Was.State), words.Say(req.Lang, "state."+d.Now.State)))
	}
	return Response{Meter: out}, nil
}

func known(mode meter.Mode) bool {
	for _, m := range meter.Modes {
		if m == mode {
			return true
		}
	}
	return false
}

func modeNames() string {
	var names []string
	for _, m := range meter.Modes {
		names = append(names, string(m))
	}
	return strings.Join(names, ", ")
}

// wireBranch finds the conductor of a wire by its number.
func (s *session) wireBranch(no string) int {
	for k := range s.model.Net.Branches {
		if b := &s.model.Net.Branches[k]; b.Role == parts.RoleWire && b.Thing == no {
			return k
		}
	}
	return -1
}
