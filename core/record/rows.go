package record

import (
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/panel"
)

// Say gives the sentence of a code, as package words does in one language.
type Say func(code string, args ...string) string

// A row is one line of a record and the code of the section it belongs to.
type row struct {
	part                              string
	when, what, shown, expected, note string
	open                              bool
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

// A Line is one line of a record, the same in every export.
type Line struct {
	When     string `json:"when"`
	What     string `json:"what"`
	Shown    string `json:"shown"`
	Expected string `json:"expected"`
	Note     string `json:"note"`
	Open     bool   `json:"open"` // a temporary change that is not back, a check that is not done
}

// A Section is the lines of one part of a record.
type Section struct {
	Code  string `json:"code"` // "record.temporary"
	Title string `json:"title"`
	Lines []Line `json:"lines"`
}

// Sections are the parts of a record that have lines. What is still in place
// comes first: nobody may overlook it.
func Sections(j *Job, say Say) (list []Section) {
	all := rows(j, say)
	for _, part := range sections {
		s := Section{Code: part, Title: say(part)}
		for _, r := range all {
			if r.part == part {
				s.Lines = append(s.Lines, Line{When: wall(r.when), What: r.what, Shown: r.shown, Expected: r.expected, Note: r.note, Open: r.open})
			}
		}
		if len(s.Lines) > 0 {
			list = append(list, s)
		}
	}
	return list
}

// wall is a time as a clock there showed it, to the minute: what a person and a
// spreadsheet read. Whatever is no RFC 3339 time stays as it is written.
func wall(when string) string {
	const shape = "0000-00-00T00:00"
	if len(when) <= len(shape) {
		return when
	}
	for i, c := range []byte(shape) {
		if digit := when[i] >= '0' && when[i] <= '9'; digit != (c == '0') || !digit && when[i] != c {
			return when
		}
	}
	return when[:10] + " " + when[11:len(shape)]
}

// rows are the lines of a job.
func rows(j *Job, say Say) []row {
	var list []row
	add := func(r row) { list = append(list, r) }
	for i := range j.Temporary {
		t := &j.Temporary[i]
		r := row{part: partTemporary, when: t.Placed, what: say("temporary."+known(t.What, temporaries), t.Where), note: t.Note, open: t.Back == ""}
		r.shown = say("record.back", wall(t.Back))
		if r.open {
			r.shown = say("record.not-back")
		}
		add(r)
	}
	for _, line := range []struct{ code, text string }{{"record.title", j.Title}, {"record.panel", panelName(j)}, {"record.complaint", j.Complaint},
		{"record.condition", j.At}, {"record.dead", strings.Join(j.Dead, ", ")}, {"record.works", strings.Join(j.Works, ", ")},
		{"record.started", wall(j.Started)}, {"record.ended", wall(j.Ended)}, {"record.minutes", minutes(j.Minutes)}, {"record.who", j.Who}} {
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
		add(row{part: partPhotos, what: wall(p.Name), shown: of, note: p.About})
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
