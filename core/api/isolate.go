package api

import (
	"math"
	"slices"
	"strings"

	"halfsplit/core/circuit"
	"halfsplit/core/meter"
	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/trace"
	"halfsplit/core/unit"
	"halfsplit/core/words"
)

func (s *session) isolate(req Request) (Response, *Error) {
	e, err := s.experiment(req)
	if err != nil {
		return Response{}, err
	}
	job, err := s.job(req)
	if err != nil {
		return Response{}, err
	}
	if _, err := e.enter(req.Lang); err != nil { // unsolvable is an error here, not a target that stays live
		return Response{}, err
	}
	e.base.Leave()
	is := e.base.Isolate(job.target, e.changes, e.onset)
	out := &Isolate{Targets: job.names, Isolated: is.Isolated, Open: []IsolatePoint{}, Instead: []IsolatePoint{}, AlsoDown: []Affected{}, Sources: []Reach{}, Prove: []Proof{}}
	for i := range is.Points {
		out.Open = append(out.Open, s.isolatePoint(req.Lang, &is.Points[i]))
	}
	for i := range is.Instead {
		out.Instead = append(out.Instead, s.isolatePoint(req.Lang, &is.Instead[i]))
	}
	for _, a := range is.Down {
		out.AlsoDown = append(out.AlsoDown, s.affected(req.Lang, a, e.faults))
	}
	for _, r := range is.Reaches {
		out.Sources = append(out.Sources, Reach{Ref: r.Ref, Code: r.Code, Text: words.Say(req.Lang, r.Code, r.Ref), Prevents: r.Prevents})
	}
	if is.Isolated {
		if out.Prove, err = s.proofs(req, e, job, is); err != nil {
			return Response{}, err
		}
	}
	out.Cautions = s.isolatingCautions(req.Lang, is)
	out.Text = s.isolateText(req.Lang, out)
	return Response{Isolate: out}, nil
}

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

func (s *session) isolatePoint(lang string, p *trace.Point) IsolatePoint {
	out := IsolatePoint{Point: p.Ref, Lockable: p.Locks, Amps: round(p.Amps, 4), Points: []string{}, Step: p.Verb + " " + p.Ref}
	code := "isolate.lever"
	from := ""
	switch {
	case p.Source:
		code = "isolate.source"
		if m := s.index.MainsByRef(p.Ref); m != nil {
			from = m.From
		}
	case p.Locks:
		code = "isolate.switch"
	}
	out.Code, out.How = code, words.Say(lang, code, p.Ref, from)
	if p.Loaded() {
		out.First = words.Say(lang, "isolate.first", p.Ref, unit.Format(p.Amps, unit.Current), unit.Format(p.Breaks, unit.Current))
	}
	for _, q := range s.model.Net.Points {
		if !q.Hidden && (q.Ref == p.Ref || q.Name == p.Ref || strings.HasPrefix(q.Name, p.Ref+"/")) {
			out.Points = append(out.Points, q.Name)
		}
	}
	return out
}

// proofs lists every pair of the target's conductors, and each against earth and,
// where mains is present, neutral, with what both voltage modes show before and
// after.
func (s *session) proofs(req Request, e experiment, j *job, is trace.Isolation) ([]Proof, *Error) {
	list := []Proof{}
	m, err := myMeter(req)
	if err != nil {
		return nil, err
	}
	before, err2 := e.base.Standing(e.changes, e.onset)
	if err2 != nil {
		return nil, problem(req.Lang, "api.unsolvable", err2.Error())
	}
	after, err2 := e.base.Standing(append(append([]parts.Change(nil), e.changes...), trace.Opening(is.Points)...), e.onset)
	if err2 != nil {
		return nil, problem(req.Lang, "api.unsolvable", err2.Error())
	}
	add := func(red, black parts.Point) {
		p := Proof{Red: red.Name, Black: black.Name, RedTip: s.tip(req.Lang, red.Name), BlackTip: s.tip(req.Lang, black.Name)}
		dc, ac := m.Both(before, red.Node, black.Node)
		before.Revert()
		dcAfter, acAfter := m.Both(after, red.Node, black.Node)
		after.Revert()
		p.Modes = []string{string(meter.VDC), string(meter.VAC)}
		p.Before = []string{m.Volts(dc, meter.VDC), m.Volts(ac, meter.VAC)}
		p.After = []string{m.Volts(dcAfter, meter.VDC), m.Volts(acAfter, meter.VAC)}
		p.Live = max(math.Abs(dc), ac) >= trace.DeadVolts
		code := "prove.live"
		if !p.Live {
			code = "prove.nothing"
		}
		p.Text = words.Say(req.Lang, code, red.Name, black.Name)
		list = append(list, p)
	}
	for i, p := range j.points {
		for _, q := range j.points[i+1:] {
			add(p, q)
		}
	}
	earth, neutral := s.earthPoint(j), parts.Point{}
	if is.Mains {
		neutral = s.neutralPoint()
	}
	for _, p := range j.points {
		if earth.Name != "" {
			add(p, earth)
		}
		if neutral.Name != "" && !slices.ContainsFunc(j.points, func(q parts.Point) bool { return q.Node == neutral.Node }) {
			add(p, neutral)
		}
	}
	slices.SortStableFunc(list, func(p, q Proof) int { return order(q.Live) - order(p.Live) })
	return list, nil
}

// order puts what is before what is not.
func order(is bool) int {
	if is {
		return 1
	}
	return 0
}

// earthPoint is where a tester meets the protective earth: at the target, else on
// its strip, else on any strip, else at bonded metal of the plant.
func (s *session) earthPoint(j *job) parts.Point {
	if len(j.earth) > 0 {
		return j.earth[0]
	}
	net := s.model.Net
	best, rank := parts.Point{}, 0
	for _, p := range net.Points {
		r := 0
		switch {
		case p.Hidden || p.Node != circuit.Earth && !net.Nodes[p.Node].Earthing:
			continue
		case p.Name == parts.EarthPoint:
			r = 1
		case s.index.Strip(p.Ref) != nil:
			r = 2
		}
		if r >= 2 && slices.ContainsFunc(j.points, func(q parts.Point) bool { return q.Ref == p.Ref }) {
			r = 4
		} else if r == 1 && slices.ContainsFunc(j.points, func(q parts.Point) bool { return q.Field }) {
			r = 3
		}
		if r > rank || best.Name == "" {
			best, rank = p, r
		}
	}
	return best
}

// neutralPoint is the neutral of the incoming supply.
func (s *session) neutralPoint() parts.Point {
	for _, p := range s.model.Net.Places {
		if p.Return && p.Pole == parts.Neutral {
			q, _ := s.model.Net.FindPoint(p.Name)
			return q
		}
	}
	return parts.Point{}
}

// isolatingCautions are the usual order of the work; local rules come first.
func (s *session) isolatingCautions(lang string, is trace.Isolation) []Text {
	higher := is.Mains || !s.declaredExtraLow()
	list := []Text{}
	if higher {
		list = append(list, say(lang, "caution.isolate-higher"))
	}
	if !is.Isolated {
		return append(list, say(lang, "caution.not-isolated"), say(lang, "caution.live-work"))
	}
	for _, a := range is.Down {
		if a.Effect == trace.HeldOn {
			list = append(list, say(lang, "caution.starts", a.Ref))
		}
	}
	list = append(list, say(lang, "caution.lock-out"))
	for i := range is.Points {
		if !is.Points[i].Locks {
			list = append(list, say(lang, "caution.no-lock"))
			break
		}
	}
	list = append(list, say(lang, "caution.stored"), say(lang, "caution.prove-tester"), say(lang, "caution.test-pairs"), say(lang, "caution.prove-again"), say(lang, "caution.live-work"))
	if !higher {
		list = append(list, say(lang, "caution.isolate-low"))
	}
	return list
}

func (s *session) isolateText(lang string, out *Isolate) string {
	targets := strings.Join(out.Targets, ", ")
	if !out.Isolated {
		var refs []string
		for _, r := range out.Sources {
			if r.Prevents {
				refs = append(refs, r.Ref)
			}
		}
		return words.Say(lang, "isolate.none", targets, strings.Join(refs, ", "))
	}
	if len(out.Open) == 0 {
		return words.Say(lang, "isolate.nothing", targets)
	}
	var points, down []string
	for _, p := range out.Open {
		points = append(points, p.Point)
	}
	for _, a := range out.AlsoDown {
		down = append(down, a.Ref)
	}
	return words.Say(lang, "isolate.open", strings.Join(points, ", "), targets, strings.Join(down, ", "))
}
