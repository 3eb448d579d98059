package api

import (
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/trace"
)

// A job is what is to be worked on.
type job struct {
	names  []string
	target trace.Target
	points []parts.Point // where its metal can be touched, a node once
	earth  []parts.Point // its own metal on the protective earth
}

// job reads the refs of a request: a part, a strip, a block, a point, a wire.
func (s *session) job(req Request) (*job, *Error) {
	if len(req.Refs) == 0 {
		return nil, problem(req.Lang, "api.no-target")
	}
	j := &job{target: trace.Target{Own: map[string]bool{}}}
	for _, ref := range req.Refs {
		if err := s.addTarget(req.Lang, j, ref); err != nil {
			return nil, err
		}
	}
	return j, nil
}

func (s *session) addTarget(lang string, j *job, ref string) *Error {
	name := ref
	if p, ok := panel.ParsePoint(ref); ok {
		name = p.String()
	} else if d := panel.Designation(ref); s.index.Part(d) != nil || s.index.Strip(d) != nil || s.index.MainsByRef(d) != nil {
		name = d
	}
	found := false
	for _, e := range s.model.Net.Ends {
		if e.No == name || e.No+"@"+e.At == name { // a wire: both ends and the metal it lies on
			if !s.model.Net.Nodes[e.Metal].Earthing && e.Place.Pole != parts.Earth {
				j.target.Nodes = append(j.target.Nodes, e.Strand)
			}
			if p := s.pointOf(e.Metal); p.Name != "" {
				j.touch(s, p)
			}
			found = true
		}
	}
	for _, p := range s.model.Net.Points {
		if !p.Hidden && (p.Ref == name || p.Name == name || strings.HasPrefix(p.Name, name+"/") || strings.HasPrefix(p.Name, name+".")) {
			j.touch(s, p)
			found = true
		}
	}
	if !found {
		if p, ok := s.model.Net.FindPoint(name); ok && !p.Hidden { // another spelling
			j.touch(s, p)
			found = true
		}
	}
	if !found {
		if i, err := s.device(lang, ref); err == nil && s.model.Net.Devices[i].Tag != "" { // a tag: LT-101
			return s.addTarget(lang, j, s.model.Net.Devices[i].Part)
		}
		return s.unknownTarget(lang, ref)
	}
	j.names = append(j.names, name)
	if s.index.Part(name) != nil || s.index.MainsByRef(name) != nil {
		j.target.Own[name] = true
	}
	return nil
}

// touch adds a point: metal of the protective earth is what others are tested
// against.
func (j *job) touch(s *session, p parts.Point) {
	list := &j.points
	if s.model.Net.Nodes[p.Node].Earthing || s.poleOf(p.Name) == parts.Earth {
		list = &j.earth
	} else {
		j.target.Nodes = append(j.target.Nodes, p.Node)
	}
	for _, q := range *list {
		if q.Node == p.Node {
			return
		}
	}
	*list = append(*list, p)
}

func (s *session) poleOf(name string) parts.Pole {
	for _, p := range s.model.Net.Places {
		if p.Name == name {
			return p.Pole
		}
	}
	return parts.Any
}

func (s *session) unknownTarget(lang, ref string) *Error {
	var all []string
	for _, p := range s.model.Net.Points {
		if !p.Hidden {
			all = append(all, p.Name)
		}
	}
	for i := range s.found.Parts {
		all = append(all, s.found.Parts[i].Ref)
	}
	for i := range s.found.Wires {
		all = append(all, s.found.Wires[i].No)
	}
	near := panel.Nearest(ref, all)
	e := problem(lang, "api.unknown-target", ref, near)
	if near != "" {
		e.Choices = []string{near}
	}
	return e
}
