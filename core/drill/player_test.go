package drill_test

import (
	"strings"
	"testing"

	"halfsplit/core/diagnose"
	"halfsplit/core/drill"
	"halfsplit/core/fault"
	"halfsplit/core/sim"
)

// mostSteps is more than any search of these drills takes.
const mostSteps = 60

// A player does what package diagnose prompts, sees only what the attempt shows, and
// works by the rules.
type player struct {
	t     *testing.T
	a     *drill.Attempt
	e     *diagnose.Engine
	asked map[int]int // steps by candidate
	steps int
}

func (p *player) do(acts ...drill.Act) *drill.Entry { return do(p.t, p.a, acts...) }

// search follows the prompts until there is none.
func (p *player) search() diagnose.Answer {
	for {
		answer := p.e.Find(p.a.Known())
		if answer.Next == nil || p.steps > mostSteps {
			return answer
		}
		p.steps++
		if p.asked[answer.Next.Index]++; p.asked[answer.Next.Index] > 1 {
			p.steps-- // looking twice to be sure
		}
		if p.asked[answer.Next.Index] > 3 {
			p.t.Fatalf("%s: asks for the same step again and again", p.a.Case.Drill.Name)
		}
		p.take(answer.Next)
	}
}

// closer looks at the places of a suspect until something is seen, and names the
// fault that is left.
func (p *player) closer(s *diagnose.Suspect) *fault.Fault {
	for _, c := range drill.Closer(p.e, s) {
		if p.asked[c] == 0 {
			p.steps++
			p.take(&diagnose.Step{Candidate: p.e.Candidates[c], Index: c})
		}
	}
	all := p.e.Find(p.a.Known()).All
	for _, f := range s.Faults {
		if all[f+1].Consistent() {
			return &p.e.Set.Faults[f]
		}
	}
	return &p.e.Set.Faults[s.Faults[0]]
}

// take does what a prompt asks for.
func (p *player) take(s *diagnose.Step) {
	net := p.a.Case.Rig.Model.Net
	act := drill.Act{Kind: drill.DoLook}
	switch s.Look {
	case diagnose.AtDevice:
		act.Thing = net.Devices[s.Thing].Ref
	case diagnose.AtLight:
		act.Thing = net.Lights[s.Thing].Ref
	case diagnose.AtPlace:
		act.Thing = p.e.Places[s.Thing]
	default:
		act = drill.Act{Kind: drill.DoRead, Mode: string(s.Mode), Red: p.e.Probes[s.Red].Name, Black: p.e.Probes[s.Black].Name, Why: "half-split"}
	}
	switch with := p.e.Situations[s.Situation].With; with {
	case "":
		p.do(act)
	case sim.PowerOff:
		p.off()
		p.do(act)
		p.on()
		p.do(drill.Act{Kind: drill.DoProveFunction})
	default:
		back := ""
		for _, o := range p.a.Offers() {
			if o.Kind == drill.DoOperate {
				back = strings.Join(o.Targets, ";")
			}
		}
		p.do(drill.Act{Kind: drill.DoOperate, Step: with}, act)
		for _, o := range p.a.Offers() {
			if o.Kind == drill.DoOperate {
				for _, step := range o.Targets {
					_, ref, _ := strings.Cut(with, " ")
					if strings.HasSuffix(step, " "+ref) && !strings.Contains(back, step) {
						p.do(drill.Act{Kind: drill.DoOperate, Step: step})
					}
				}
			}
		}
	}
}

// off switches every source off and locks it; on undoes that.
func (p *player) off() { p.sources("switch-off ", "disconnect ", drill.DoLock) }

func (p *player) on() {
	for i := range p.a.Case.Rig.Model.Net.Elements {
		el := &p.a.Case.Rig.Model.Net.Elements[i]
		if el.Kind != nil && el.Kind.Source {
			p.do(drill.Act{Kind: drill.DoUnlock, Thing: el.Ref}, drill.Act{Kind: drill.DoOperate, Step: el.Kind.Positions[0].Verb + " " + el.Ref})
		}
	}
}

func (p *player) sources(_, _, then string) {
	for i := range p.a.Case.Rig.Model.Net.Elements {
		el := &p.a.Case.Rig.Model.Net.Elements[i]
		if el.Kind != nil && el.Kind.Source {
			p.do(drill.Act{Kind: drill.DoOperate, Step: el.Kind.Positions[1].Verb + " " + el.Ref}, drill.Act{Kind: then, Thing: el.Ref})
		}
	}
}

// mend calls a fault, makes its place safe, mends it and starts the plant.
func (p *player) mend(thing, class string) {
	p.do(drill.Act{Kind: drill.DoCall, Thing: thing, Class: class})
	p.off()
	p.do(drill.Act{Kind: drill.DoProveTester})
	for _, pair := range p.a.Case.Pairs(thing) {
		p.do(drill.Act{Kind: drill.DoProveDead, Red: pair[0], Black: pair[1]})
	}
	p.do(drill.Act{Kind: drill.DoProveTester}, drill.Act{Kind: drill.DoRepair})
	p.on()
	p.do(drill.Act{Kind: drill.DoProveFunction})
}

// A player that follows package diagnose finishes every drill: finds and proves all
// that is hidden, falls into no gate, and needs no more than a step over the stated
// plan.
func TestPlayerFinishesEveryDrill(t *testing.T) {
	names, docs := embedded(t)
	for i, doc := range docs {
		t.Run(names[i], func(t *testing.T) {
			c := set(t, doc, 0)
			p := player{t: t, a: c.Begin(), e: c.Engine(), asked: map[int]int{}}
			if len(c.Faults) == 0 {
				p.search()
				p.do(drill.Act{Kind: drill.DoLook, Thing: doc.Drill.Hidden.Because})
				p.steps++
				p.do(drill.Act{Kind: drill.DoCall, Thing: doc.Drill.Hidden.Because, Class: drill.Nothing})
			}
			for range c.Faults {
				answer := p.search()
				if answer.Status != diagnose.Found && answer.Status != diagnose.CannotSeparate {
					t.Fatalf("%s after %d steps", answer.Status, p.steps)
				}
				f := p.closer(&answer.Suspects[0])
				p.mend(f.Thing, f.Class)
				p.asked = map[int]int{}
			}
			if len(c.Faults) == 0 {
				p.do(drill.Act{Kind: drill.DoProveFunction})
			}
			p.do(drill.Act{Kind: drill.DoDone})
			d, err := p.a.Debrief()
			if err != nil {
				t.Fatal(err)
			}
			if d.Score.Result != drill.Found || len(p.a.Fired) > 0 || !p.a.Whole() || len(p.a.Good) > 0 {
				t.Errorf("%s, gates %v, grades %+v, good parts %v, calls %+v", d.Score.Result, p.a.Fired, d.Score.Grades, p.a.Good, p.a.Calls)
			}
			if stated := doc.Drill.Hidden.Plan.Steps; p.steps > stated+1 || d.Best.Count() > stated+1 || d.Best.Count() < stated-1 {
				t.Errorf("%d steps, the best plan has %d, %d are stated", p.steps, d.Best.Count(), stated)
			}
			for _, part := range d.Score.Parts {
				switch part.Code {
				case "drill.part-minutes", "drill.part-readings": // package diagnose looks twice to be sure
				case "drill.part-time": // the player switches off every source, in other cabinets too
				default:
					if part.Points != part.Of {
						t.Errorf("%s: %d of %d for a player who does it by the book: %+v", part.Code, part.Points, part.Of, part.Facts)
					}
				}
			}
		})
	}
}

// A guessing player who knows only what the call tells, and calls one of the suspects
// it leaves, is right no more often than chance over those suspects, and 5 %: however
// often he calls.
func TestGuessing(t *testing.T) {
	seeds := 200
	if testing.Short() {
		seeds = 20
	}
	_, docs := embedded(t)
	tries, right, chance := 0, 0, 0.0
	for i, doc := range docs {
		if len(doc.Drill.Hidden.Faults) == 0 {
			continue
		}
		left := map[string][][]int{} // by what is hidden: a variation comes again
		for seed := range seeds {
			c := set(t, doc, seed)
			e := c.Engine()
			groups, known := left[c.Faults[0].Key()]
			if !known {
				groups = suspected(e, c)
				left[c.Faults[0].Key()] = groups
			}
			n := uint64(1 + i + 1000*seed)
			guess := func(of int) int {
				n = n*6364136223846793005 + 1442695040888963407 // Knuth's MMIX
				return int(n>>33) % of
			}
			a := c.Begin()
			for range 3 {
				group := groups[guess(len(groups))]
				f := &e.Set.Faults[group[guess(len(group))]]
				do(t, a, drill.Act{Kind: drill.DoCall, Thing: f.Thing, Class: f.Class})
			}
			tries++
			chance += float64(len(c.Faults)) / float64(len(groups)) / float64(len(c.Faults))
			if whole(a) {
				right++
			}
		}
	}
	if tries < seeds*10 {
		t.Fatalf("only %d tries", tries)
	}
	if got, want := float64(right)/float64(tries), chance/float64(tries)+0.05; got > want {
		t.Errorf("a guess is right %.1f %% of the time, chance and 5 %% are %.1f %%", 100*got, 100*want)
	}
	t.Logf("right %.1f %%, chance %.1f %%", 100*float64(right)/float64(tries), 100*chance/float64(tries))
}

// suspected lists the faults of each suspect that the call leaves.
func suspected(e *diagnose.Engine, c *drill.Case) (groups [][]int) {
	answer := e.Find(c.Told())
	for k := range answer.Suspects {
		if s := &answer.Suspects[k]; s.Consistent && s.Probability >= 0.002 && !s.Silent {
			groups = append(groups, s.Faults)
		}
	}
	return groups
}

// whole says whether the calls of an attempt name all that is hidden.
func whole(a *drill.Attempt) bool {
	for _, g := range a.Grades() {
		if !g.Component || !g.Terminal || !g.Kind {
			return false
		}
	}
	return true
}
