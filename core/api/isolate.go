package api

import (
	"strings"

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
