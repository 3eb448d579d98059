// Package draft builds a panel by small edits, the way a person does who stands
// before it: a strip of twenty-four, these with fuses, a jumper from five to
// eight, a transmitter here, a wire from there to there, six more like this one.
//
// # Edits are data
//
// An Edit says one thing in a few fields. Apply takes a document and a list of
// edits and gives a new document; the one it was given stays as it was. Nothing
// else is remembered: the same edits on the same document give the same bytes,
// so that a page undoes by leaving the last edit out.
//
// # A draft is never blocked
//
// An edit is refused, with a code and what would be accepted, where it cannot be
// carried out: a block that is not there, a designation that is taken. Whether
// the panel then makes sense is for package check, which is run on every draft
// and may find as much wrong as it likes.
//
// # As found
//
// With AsFound an edit corrects the panel instead of the drawing: its effect is
// written down as corrections of package panel, and the drawing stays.
package draft

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"halfsplit/core/panel"
)

// What one call may ask for: far beyond a person's thumb, far below what would
// keep a phone busy. All are choices.
const (
	MaxEdits = 500  // in one call
	MaxEach  = 1000 // blocks of one strip edit, copies of one pattern
	MaxText  = 500  // characters of one text
	MaxList  = 1000 // entries of one list or map
)

// What an Edit does, and the fields it reads beside Ref.
const (
	Name        = "name"             // Name, About: of the panel
	Mains       = "mains"            // Voltage, Frequency, Earthing, Impedance, Supply: an incoming supply
	Strip       = "strip"            // Count, First, Step, Kind, Fuse, Label: a strip, or more blocks at its end
	Blocks      = "blocks"           // From, To or List, Kind or Word, Fuse, Indicator, Label: some blocks of a strip are so
	Jumper      = "jumper"           // From, To or List, Level, Side: a jumper on a strip
	Unjumper    = "remove-jumper"    // From, To or List, Level: the jumpers on these blocks
	Part        = "part"             // Word or Kind, Tag, Label, At, Process, Ratings, Contacts, Channels
	Set         = "set"              // of a part or wire: the fields given, and those named in Clear emptied
	Label       = "label"            // Label: of a strip, block or part
	Rename      = "rename"           // Name: another designation, marking or wire number
	Wire        = "wire"             // From, To, Size, Length, Colour, Cable, Core; Ref is its number
	MoveWire    = "move-wire"        // End, To: an end of a wire lands elsewhere
	Between     = "between"          // a part, as Part has it, that sits in the wire Ref; Name is its designation
	Remove      = "remove"           // a strip, block, part or wire, and what cannot stand without it
	Condition   = "condition"        // Name, About, Positions, Steps: a state of the plant; Ref is its name so far, where it gets another
	Uncondition = "remove-condition" // the state of the plant Ref
	Copy        = "copy"             // Count: the part Ref again, with its wires and blocks
	AdoptFound  = "adopt-found"      // the corrections become the drawing
	ForgetFound = "forget-found"     // Count corrections, from the last, are taken back
)

// Ops lists what an Edit can do.
func Ops() []string {
	return []string{Name, Mains, Strip, Blocks, Jumper, Unjumper, Part, Set, Label, Rename, Wire, MoveWire, Between, Remove,
		Condition, Uncondition, Copy, AdoptFound, ForgetFound}
}

// An Edit is one change of a document. Fields it does not read are left empty.
type Edit struct {
	Op      string
	AsFound bool   // correct the panel, not the drawing
	Ref     string // the thing: "X1", "X1:4", "K1", "W12"; empty for one that is new and gets the next free name

	Name  string
	About string
	Label string
	Word  string // a trade word, letter code or tag; Guess reads it
	Kind  string // of the catalogue in package parts

	Count int
	First string // marking of the first block; "1" when empty, "PE1" counts PE1, PE2 …
	Step  int    // 1 when 0

	From  string   // the first block of a range, or where a wire begins
	To    string   // the last, or where it ends
	List  []string // blocks by their markings, instead of a range
	Level int
	Side  string
	End   string // "from" or "to"

	Fuse      string
	Indicator string

	Tag      string
	At       string
	Process  string
	Ratings  map[string]string // an empty text takes a rating away
	Contacts []string
	Channels int
	Clear    []string // names of fields to empty, as the document has them

	Size   string
	Length string
	Colour string
	Cable  string
	Core   string

	Voltage   string
	Frequency string
	Earthing  string
	Impedance string
	Supply    string // where the incoming supply is switched off and locked

	Positions map[string]string
	Steps     []string

	Note string // of a correction
	By   string
	When string // RFC 3339
}

// A Made is one thing an edit has done, for a preview and for the history.
type Made struct {
	Edit int    // which edit of the list
	Code string // sentence in package words
	Args []string
	Ref  string // the thing, empty where it is gone
}

// An Error says which edit cannot be carried out and why. Nothing of the list is
// then done.
type Error struct {
	Edit    int // which edit of the list
	Code    string
	Args    []string
	Choices []string // what would be accepted
}

// Error is for logs; people are shown the sentences of package words.
func (e *Error) Error() string {
	return "edit " + strconv.Itoa(e.Edit) + ": " + e.Code + " " + strings.Join(e.Args, " ")
}

// New is a panel with nothing in it.
func New() *panel.Panel { return &panel.Panel{Format: panel.Format, Version: panel.Version} }

// Apply carries out edits on a copy of p. trade tells the words of the trade for
// the edits that name a kind by one; nil where there are none.
//
// The error is an *Error; the panel is then nil.
func Apply(p *panel.Panel, edits []Edit, trade Trade) (*panel.Panel, []Made, error) {
	d := &drafter{p: p.Clone(), trade: trade}
	if len(edits) > MaxEdits {
		return nil, nil, &Error{Code: "draft.too-many-edits", Args: []string{strconv.Itoa(len(edits)), strconv.Itoa(MaxEdits)}}
	}
	for i := range edits {
		d.at = i
		d.edit(&edits[i])
		if d.err == nil {
			d.bounded()
		}
		if d.err != nil {
			d.err.Edit = i
			return nil, nil, d.err
		}
	}
	return d.p, d.made, nil
}

// A drafter carries out edits one by one and stops at the first error.
type drafter struct {
	p     *panel.Panel
	trade Trade
	at    int
	made  []Made
	err   *Error
}

func (d *drafter) fail(code string, args ...string) {
	if d.err == nil {
		for i := range args {
			args[i] = panel.Shorten(args[i])
		}
		d.err = &Error{Code: code, Args: args}
	}
}

// refuse fails with what would be accepted.
func (d *drafter) refuse(choices []string, code string, args ...string) {
	d.fail(code, args...)
	if d.err.Choices == nil {
		d.err.Choices = choices[:min(len(choices), 100)] // more is no help to anybody
	}
}

func (d *drafter) say(ref, code string, args ...string) {
	d.made = append(d.made, Made{Edit: d.at, Code: code, Args: args, Ref: ref})
}

func (d *drafter) edit(e *Edit) {
	if !d.sound(e) {
		return
	}
	switch {
	case e.Op == AdoptFound:
		d.adopt()
	case e.Op == ForgetFound:
		d.forget(e)
	case e.AsFound:
		d.correct(e)
	default:
		d.draw(e)
	}
}

// draw carries out an edit of the drawing.
func (d *drafter) draw(e *Edit) {
	switch e.Op {
	case Name:
		d.name(e)
	case Mains:
		d.mains(e)
	case Strip:
		d.strip(e)
	case Blocks:
		d.blocks(e)
	case Jumper:
		d.jumper(e)
	case Unjumper:
		d.unjumper(e)
	case Part:
		d.part(e)
	case Set:
		d.set(e)
	case Label:
		d.label(e)
	case Rename:
		d.rename(e)
	case Wire:
		d.wire(e)
	case MoveWire:
		d.moveWire(e)
	case Between:
		d.between(e)
	case Remove:
		d.remove(e)
	case Condition:
		d.condition(e)
	case Uncondition:
		d.removeCondition(e)
	case Copy:
		d.copy(e)
	case "":
		d.refuse(Ops(), "draft.op-missing")
	default:
		d.refuse(Ops(), "draft.unknown-op", e.Op, panel.Nearest(e.Op, Ops()))
	}
}

// sound refuses what is too long to be meant: a page of text where a name
// belongs, a count beyond any rail.
func (d *drafter) sound(e *Edit) bool {
	texts := []string{e.Op, e.Ref, e.Name, e.About, e.Label, e.Word, e.Kind, e.First, e.From, e.To, e.Side, e.End, e.Fuse, e.Indicator,
		e.Tag, e.At, e.Process, e.Size, e.Length, e.Colour, e.Cable, e.Core, e.Voltage, e.Frequency, e.Earthing, e.Impedance, e.Supply,
		e.Note, e.By, e.When}
	for _, list := range [][]string{e.List, e.Contacts, e.Clear, e.Steps} {
		if len(list) > MaxList {
			d.fail("draft.list-too-long", strconv.Itoa(len(list)), strconv.Itoa(MaxList))
			return false
		}
		texts = append(texts, list...)
	}
	for _, m := range []map[string]string{e.Ratings, e.Positions} {
		if len(m) > MaxList {
			d.fail("draft.list-too-long", strconv.Itoa(len(m)), strconv.Itoa(MaxList))
			return false
		}
		for _, k := range sorted(m) {
			texts = append(texts, k, m[k])
		}
	}
	for _, s := range texts {
		if utf8.RuneCountInString(s) > MaxText {
			d.fail("draft.text-too-long", s, strconv.Itoa(MaxText))
			return false
		}
		if strings.ContainsFunc(s, control) {
			d.fail("draft.control-character", s)
			return false
		}
	}
	if e.Count < 0 || e.Count > MaxEach || e.Step > MaxEach || e.Step < -MaxEach {
		d.fail("draft.count", strconv.Itoa(e.Count), strconv.Itoa(MaxEach))
		return false
	}
	return true
}

// control says that a character is none a person types; line and tab are allowed
// in a text.
func control(r rune) bool {
	return r < ' ' && r != '\n' && r != '\t' || r == 0x7f || r == utf8.RuneError
}

// bounded keeps the document within what package panel reads back.
func (d *drafter) bounded() {
	blocks, bars := 0, 0
	for i := range d.p.Strips {
		blocks += len(d.p.Strips[i].Blocks)
		for j := range d.p.Strips[i].Jumpers {
			bars += len(d.p.Strips[i].Jumpers[j].Blocks)
		}
	}
	for _, n := range []struct {
		list string
		have int
		most int
	}{{"blocks", blocks, panel.MaxCount}, {"jumpers", bars, panel.MaxCount}, {"parts", len(d.p.Parts), panel.MaxCount},
		{"wires", len(d.p.Wires), panel.MaxCount}, {"corrections", len(d.p.Found), panel.MaxEdits}} {
		if n.have > n.most {
			d.fail("too-many", n.list, strconv.Itoa(n.have), strconv.Itoa(n.most))
		}
	}
}
