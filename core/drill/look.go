package drill

import (
	"strconv"
	"strings"

	"halfsplit/core/diagnose"
	"halfsplit/core/fault"
	"halfsplit/core/parts"
)

// look shows what a thing shows: the state of a device, its indicator, the place of
// its lever, and whatever is visibly wrong there.
func (a *Attempt) look(e *Entry) *Refusal {
	c, net := a.Case, a.Case.Rig.Model.Net
	thing := c.name(e.Act.Thing)
	e.Seconds = c.effort.Inspect
	with, held := a.with()
	for i, d := range net.Devices {
		if d.Ref == thing || d.Part == thing {
			st := a.x.Status(i)
			e.tell("drill.saw-device", c.call(i), "@state."+st.State)
			e.sights = append(e.sights, sight{look: diagnose.AtDevice, thing: i, state: st.State, with: with, held: held})
			e.Seconds = c.effort.Look
		}
	}
	for i, l := range net.Lights {
		if l.Ref == thing || strings.HasPrefix(l.Ref, thing+".") {
			st := a.x.Light(i)
			e.tell("drill.saw-light", l.Ref, "@state."+st.State)
			e.sights = append(e.sights, sight{look: diagnose.AtLight, thing: i, state: st.State, with: with, held: held})
			e.Seconds = c.effort.Look
		}
	}
	if i, ok := net.Input(thing); ok && net.Elements[i].Kind != nil {
		for _, p := range net.Elements[i].Kind.Positions {
			if p.Value == a.x.Input(i) {
				e.tell("drill.saw-position", thing, p.Name)
			}
		}
	}
	known := len(e.Facts) > 0 || len(c.metals(thing)) > 0
	if _, isEnd := c.end(thing); !known && !isEnd {
		return c.unknown(e.Act.Thing)
	}
	a.inspect(e, thing, with, held)
	e.Seconds += a.walkTo(thing)
	return nil
}

// inspect adds what is visibly wrong at a thing, or that nothing is.
func (a *Attempt) inspect(e *Entry, thing, with string, held bool) {
	c := a.Case
	if _, at, ok := strings.Cut(thing, "@"); ok {
		thing = at
	}
	place := thing
	state := diagnose.AsDrawn
	for _, f := range a.present {
		if !f.Visible || spot(f) != thing && f.Value != thing && f.Place != thing {
			continue
		}
		e.tell("fault."+f.Name, bare(f.Thing), f.Value)
		place, state = spot(f), diagnose.NotAsDrawn // a wire seen where it does not belong is missing where it does
	}
	for _, l := range a.lifted {
		if end, ok := c.end(l); ok && (end.At == thing || end.No == thing) {
			e.tell("fault.lifted", l)
		}
	}
	if state == diagnose.AsDrawn && len(e.Facts) == 0 {
		e.tell("drill.saw-nothing", thing)
	}
	e.sights = append(e.sights, sight{look: diagnose.AtPlace, place: place, state: state, with: with, held: held && with == ""})
}

// spot is where a visible fault is seen: as package diagnose has it, the clamp of a
// wire end, the first of two bridged terminals, or the thing itself.
func spot(f *fault.Fault) string {
	first, _, _ := strings.Cut(f.Thing, "~")
	if _, at, ended := strings.Cut(first, "@"); ended {
		return at
	}
	return first
}

// bare writes "W12~W13" as people say it.
func bare(thing string) string { return strings.ReplaceAll(thing, "~", " – ") }

func (c *Case) unknown(thing string) *Refusal {
	return &Refusal{Code: "drill.unknown-thing", Args: []string{thing}}
}

// ask puts a question to the operator.
func (a *Attempt) ask(e *Entry) *Refusal {
	c := a.Case
	n, err := strconv.Atoi(e.Act.Thing)
	if err != nil || n < 1 || n > len(c.Drill.Questions) {
		return &Refusal{Code: "drill.unknown-question", Args: []string{e.Act.Thing}, Choices: c.Drill.Questions}
	}
	e.Seconds = c.effort.Ask
	if say := c.Answers[n-1]; say != "" {
		e.tell("drill.answer", say)
	} else {
		e.tell("drill.does-not-know")
	}
	return nil
}

// pull takes a fuse out, looks at it, and puts it back.
func (a *Attempt) pull(e *Entry) *Refusal {
	c, net := a.Case, a.Case.Rig.Model.Net
	thing := c.name(e.Act.Thing)
	link, lever := -1, -1
	for i := range net.Elements {
		if owner, is := strings.CutSuffix(net.Elements[i].Ref, " link"); is && (owner == thing || strings.HasPrefix(owner, thing+".")) {
			link = i
			if l, ok := net.Input(owner); ok && net.Elements[l].Kind != nil && len(net.Elements[l].Kind.Positions) > 1 {
				lever = l
			}
		}
	}
	if link < 0 {
		return &Refusal{Code: "drill.no-fuse", Args: []string{e.Act.Thing}}
	}
	e.Seconds = c.effort.Operate + c.effort.Inspect
	if lever < 0 { // hands in
		a.hands(e, thing)
	} else {
		was := a.x.Input(lever)
		before := a.running()
		a.move(moveTo(lever, net.Elements[lever].Kind.Positions[1].Value))
		a.down(e, before)
		a.move(moveTo(lever, was))
	}
	code, blown := "drill.fuse-whole", a.x.State(link).Mode == 1
	if blown {
		code = "drill.fuse-blown"
	}
	e.tell(code, thing)
	e.sights = append(e.sights, sight{look: atLink, place: thing, state: code})
	return nil
}

// atLink marks a sight of a pulled fuse, for which package diagnose has no look.
const atLink diagnose.Look = -1

// running lists the devices that do their work.
func (a *Attempt) running() (list []int) {
	for i := range a.Case.Rig.Model.Net.Devices {
		if a.x.Status(i).Grade == parts.On {
			list = append(list, i)
		}
	}
	return list
}

// down tells which of the devices that ran before have stopped.
func (a *Attempt) down(e *Entry, before []int) {
	var refs []string
	for _, i := range before {
		if a.x.Status(i).Grade == parts.Off {
			refs = append(refs, a.Case.Rig.Model.Net.Devices[i].Ref)
		}
	}
	if len(refs) > 0 {
		e.tell("drill.went-down", strings.Join(refs, ", "))
	}
}
