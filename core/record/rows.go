package record

import (
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/panel"
)

// Say gives the sentence of a code, as package words does in one language.
type Say func(code string, args ...string) string

// A row is one line of a record, the same in every export.
type row struct {
	part     string // code of the section it belongs to
	when     string
	what     string
	shown    string
	expected string
	note     string
	open     bool // a temporary change that is not back, a check that is not done
}

// The sections of a record, in order.
const (
	partHead      = "record.head"
	partFound     = "record.found"
	partSteps     = "record.steps"
	partCause     = "record.cause"
	partLeft      = "record.left"
	partTemporary = "record.temporary"
	partChecks    = "record.checks"
	partPhotos    = "record.photos"
	partNotes     = "record.notes"
)

var sections = []string{partTemporary, partHead, partFound, partSteps, partCause, partLeft, partChecks, partPhotos, partNotes}

// rows are the lines of a job. What is still in place comes first: nobody may
// overlook it.
func rows(j *Job, say Say) []row {
	var list []row
	add := func(r row) { list = append(list, r) }
	for i := range j.Temporary {
		t := &j.Temporary[i]
		r := row{part: partTemporary, when: t.Placed, what: say("temporary."+known(t.What, temporaries), t.Where), note: t.Note, open: t.Back == ""}
		r.shown = say("record.back", t.Back)
		if r.open {
			r.shown = say("record.not-back")
		}
		add(r)
	}
	for _, line := range []struct{ code, text string }{{"record.title", j.Title}, {"record.panel", panelName(j)}, {"record.complaint", j.Complaint},
		{"record.condition", j.At}, {"record.dead", strings.Join(j.Dead, ", ")}, {"record.works", strings.Join(j.Works, ", ")},
		{"record.started", j.Started}, {"record.ended", j.Ended}, {"record.minutes", minutes(j.Minutes)}, {"record.who", j.Who}} {
		if line.text != "" {
			add(row{part: partHead, what: say(line.code), shown: line.text})
		}
	}
	if j.Panel != nil {
		for i := range j.Panel.Found {
			add(correctionRow(partFound, &j.Panel.Found[i], say))
		}
	}
	for i := range j.Steps {
		add(stepRow(&j.Steps[i], say))
	}
	if c := j.Cause; c != nil {
		if text := strings.TrimSpace(c.Text); text != "" || c.Place != "" {
			add(row{part: partCause, what: say("record.cause-is"), shown: join("; ", c.Text, c.Place)})
		}
		for _, f := range c.Faults {
			add(row{part: partCause, what: say("record.fault"), shown: f})
		}
	}
	if j.Repair != "" {
		add(row{part: partCause, what: say("record.repair"), shown: j.Repair})
	}
	for i := range j.Left {
		add(correctionRow(partLeft, &j.Left[i], say))
	}
	for _, c := range j.Checks {
		r := row{part: partChecks, when: c.Done, what: c.Text, shown: say("record.done"), open: c.Done == ""}
		if r.open {
			r.shown = say("record.not-done")
		}
		add(r)
	}
	for _, p := range j.Photos {
		of := ""
		if p.Of != "" {
			of = say("photo." + known(p.Of, []string{"found", "left"}))
		}
		add(row{part: partPhotos, what: p.Name, shown: of, note: p.About})
	}
	for _, n := range j.Notes {
		add(row{part: partNotes, when: n.When, what: n.Text})
	}
	return list
}

// modes are what a meter is set to, as package meter names them.
var modes = []string{"vdc", "vac", "lowz", "tester", "ma", "clamp", "ohms", "beep", "diode"}

func modeName(mode string, say Say) string {
	if !slices.Contains(modes, mode) {
		return mode // a meter of another program
	}
	return say("mode." + mode)
}

var temporaries = []string{"jumper", "lifted", "lever", "forced", "removed"}

// known is a word of a list, "other" for any that is not in it.
func known(word string, list []string) string {
	if slices.Contains(list, word) {
		return word
	}
	return "other"
}

func panelName(j *Job) string {
	if j.Panel == nil {
		return ""
	}
	return j.Panel.Name
}

func minutes(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func join(sep string, texts ...string) string {
	var list []string
	for _, t := range texts {
		if t != "" {
			list = append(list, t)
		}
	}
	return strings.Join(list, sep)
}

func stepRow(s *JobStep, say Say) row {
	r := row{part: partSteps, when: s.When, shown: s.Shown, expected: s.Expected, note: join("; ", s.Why, s.Photo)}
	switch s.Kind {
	case "reading":
		r.what = say("record.reading", modeName(s.Mode, say), s.Red, s.Black, s.With)
	case "look":
		r.what = say("record.look", s.Ref, s.With)
	default:
		r.what = join(" ", s.Text, s.Ref)
		return r
	}
	r.note = join("; ", s.Text, r.note)
	return r
}

func correctionRow(part string, e *panel.Edit, say Say) row {
	code, args := Correction(e)
	return row{part: part, when: e.When, what: say(code, args...), note: join("; ", e.Note, e.By)}
}

// Correction is the code of the sentence that tells an as-found edit, with its
// arguments.
func Correction(e *panel.Edit) (code string, args []string) {
	switch {
	case e.Op == panel.OpMoveWire:
		return "correction.move-wire", []string{e.Wire, e.Point}
	case e.Op == panel.OpAddWire && e.Add != nil:
		return "correction.add-wire", []string{e.Add.No, e.Add.From, e.Add.To}
	case e.Op == panel.OpRemoveWire:
		return "correction.remove-wire", []string{e.Wire}
	case e.Op == panel.OpAddPart && e.Part != nil:
		return "correction.add-part", []string{e.Part.Ref, e.Part.Kind}
	case e.Op == panel.OpRemovePart:
		return "correction.remove-part", []string{e.Point}
	case e.Op == panel.OpAddJumper && e.Jump != nil:
		return "correction.add-jumper", []string{e.Strip, strings.Join(e.Jump.Blocks, ", ")}
	case e.Op == panel.OpRemoveJumper && e.Jump != nil:
		return "correction.remove-jumper", []string{e.Strip, strings.Join(e.Jump.Blocks, ", ")}
	case e.Op == panel.OpSetBlock && e.Block != nil:
		return "correction.set-block", []string{e.Strip + ":" + e.Block.No, e.Block.Type, e.Block.Fuse}
	case e.Op == panel.OpRemoveBlock:
		return "correction.remove-block", []string{e.Point}
	}
	return "correction.other", []string{e.Op}
}
