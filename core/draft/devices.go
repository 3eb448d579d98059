package draft

import (
	"maps"
	"slices"
	"strconv"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

func (d *drafter) name(e *Edit) {
	set(&d.p.Name, e.Name)
	set(&d.p.About, e.About)
	d.clear(e.Clear, map[string]*string{"about": &d.p.About})
	d.say("", "draft.made-name", d.p.Name)
}

// mains adds an incoming supply, or changes the one that is there. What the edit
// leaves out is what European plants have (choice); the drawing says it, so that
// a person sees it and corrects it.
func (d *drafter) mains(e *Edit) {
	k := mainsKind()
	i := slices.IndexFunc(d.p.Mains, func(m panel.Mains) bool { return e.Ref != "" && panel.Designation(m.Ref) == panel.Designation(e.Ref) })
	if i < 0 {
		ref := e.Ref
		if ref == "" {
			ref = d.nextRef(k.Letters[0])
		}
		if !d.newRef(ref) {
			return
		}
		d.p.Mains = append(d.p.Mains, panel.Mains{Ref: ref, Voltage: ratingDefault(k, "voltage"), Frequency: ratingDefault(k, "frequency"), Earthing: "TN-S"})
		i = len(d.p.Mains) - 1
	}
	m := &d.p.Mains[i]
	set(&m.Voltage, e.Voltage)
	set(&m.Frequency, e.Frequency)
	set(&m.Earthing, e.Earthing)
	set(&m.Impedance, e.Impedance)
	set(&m.From, e.Supply)
	d.say(m.Ref, "draft.made-mains", m.Ref, m.Voltage, m.Frequency, m.Earthing)
}

// mainsKind is the catalogue's entry for an incoming supply.
func mainsKind() *parts.Kind {
	k, _ := parts.Lookup("mains")
	return k
}

func ratingDefault(k *parts.Kind, name string) string {
	for _, r := range k.Ratings {
		if r.Name == name {
			return r.Default
		}
	}
	return ""
}

func (d *drafter) part(e *Edit) { d.addPart(e) }

// addPart adds the part an edit describes and gives it back, nil on an error.
func (d *drafter) addPart(e *Edit) *panel.Part {
	k, guess := d.kind(e, false)
	if k == nil {
		return nil
	}
	p := panel.Part{Ref: e.Ref, Kind: k.Name}
	if guess != nil {
		p.Tag, p.Label, p.At, p.Channels = guess.Tag, guess.Label, guess.At, guess.Channels
		p.Ratings = maps.Clone(guess.Ratings)
		set(&p.Ref, e.Ref)
		if p.Ref == "" && !d.refs()[guess.Ref] {
			p.Ref = guess.Ref
		}
	}
	if p.Ref == "" {
		letters := "A"
		if len(k.Letters) > 0 {
			letters = k.Letters[0]
		}
		p.Ref = d.nextRef(letters)
	}
	if !d.newRef(p.Ref) {
		return nil
	}
	if p.Channels == 0 && e.Channels == 0 && byChannel(k) {
		p.Channels = usualChannels
	}
	d.describe(&p, e)
	if d.err != nil || !d.newTag(p.Tag) {
		return nil
	}
	d.p.Parts = append(d.p.Parts, p)
	if guess != nil {
		d.say(p.Ref, "draft.made-part-guessed", p.Ref, p.Kind, p.Tag, e.Word)
	} else {
		d.say(p.Ref, "draft.made-part", p.Ref, p.Kind, p.Tag)
	}
	return &d.p.Parts[len(d.p.Parts)-1]
}

// usualChannels of a controller card where nobody says: choice.
const usualChannels = 8

// byChannel says whether a kind has as many terminals as it has channels.
func byChannel(k *parts.Kind) bool {
	return len(k.Terminals(&panel.Part{Channels: 3})) != len(k.Terminals(&panel.Part{Channels: 2}))
}

func (d *drafter) newTag(tag string) bool {
	for i := range d.p.Parts {
		if tag != "" && d.p.Parts[i].Tag == tag {
			d.fail("draft.tag-taken", tag, d.p.Parts[i].Ref)
			return false
		}
	}
	return true
}

// describe puts what an edit says of a part into it.
func (d *drafter) describe(p *panel.Part, e *Edit) {
	set(&p.Tag, e.Tag)
	set(&p.Label, e.Label)
	set(&p.At, e.At)
	set(&p.Process, e.Process)
	if p.At == "panel" {
		p.At = "" // the document leaves it out
	}
	if p.At != "" && p.At != "field" {
		d.refuse([]string{"panel", "field"}, "draft.unknown-place", p.At)
		return
	}
	if len(e.Contacts) > 0 {
		p.Contacts = slices.Clone(e.Contacts)
	}
	if e.Channels != 0 {
		p.Channels = e.Channels
	}
	if p.Channels < 0 || p.Channels > MaxEach {
		d.fail("draft.count", strconv.Itoa(p.Channels), strconv.Itoa(MaxEach))
		return
	}
	k, _ := parts.Lookup(p.Kind)
	var known []string
	for _, r := range k.Ratings {
		known = append(known, r.Name)
	}
	for _, name := range sorted(e.Ratings) {
		switch {
		case !slices.Contains(known, name):
			d.refuse(known, "draft.unknown-rating", p.Ref, name, p.Kind)
			return
		case e.Ratings[name] == "":
			delete(p.Ratings, name)
		default:
			if p.Ratings == nil {
				p.Ratings = map[string]string{}
			}
			p.Ratings[name] = e.Ratings[name]
		}
	}
	if len(p.Ratings) == 0 {
		p.Ratings = nil
	}
}

// set changes what an edit says of a part or a wire.
func (d *drafter) set(e *Edit) {
	if w := d.findWire(e.Ref); w != nil && d.findPart(e.Ref) == nil {
		set(&w.Size, e.Size)
		set(&w.Length, e.Length)
		set(&w.Colour, e.Colour)
		set(&w.Cable, e.Cable)
		set(&w.Core, e.Core)
		d.clear(e.Clear, map[string]*string{"size": &w.Size, "length": &w.Length, "colour": &w.Colour, "cable": &w.Cable, "core": &w.Core})
		d.say(w.No, "draft.made-change", w.No)
		return
	}
	p := d.needPart(e.Ref)
	if p == nil {
		return
	}
	if e.Kind != "" || e.Word != "" {
		k, _ := d.kind(e, false)
		if k == nil {
			return
		}
		p.Kind = k.Name
		keepKnown(p, k)
	}
	if e.Tag != "" && e.Tag != p.Tag && !d.newTag(e.Tag) {
		return
	}
	d.describe(p, e)
	d.clear(e.Clear, map[string]*string{"tag": &p.Tag, "label": &p.Label, "process": &p.Process})
	d.say(p.Ref, "draft.made-change", p.Ref)
}

// keepKnown takes away what another kind does not know.
func keepKnown(p *panel.Part, k *parts.Kind) {
	maps.DeleteFunc(p.Ratings, func(name, _ string) bool {
		return !slices.ContainsFunc(k.Ratings, func(r parts.Rating) bool { return r.Name == name })
	})
	if len(p.Ratings) == 0 {
		p.Ratings = nil
	}
	if !byChannel(k) {
		p.Channels = 0
	} else if p.Channels == 0 {
		p.Channels = usualChannels
	}
}

func (d *drafter) label(e *Edit) {
	switch s, i := d.findBlock(e.Ref); {
	case s != nil && i >= 0:
		s.Blocks[i].Label = e.Label
	case d.findStrip(e.Ref) != nil:
		d.findStrip(e.Ref).Label = e.Label
	case d.findPart(e.Ref) != nil:
		d.findPart(e.Ref).Label = e.Label
	default:
		refs := sorted(d.refs())
		d.refuse(refs, "draft.unknown-thing", e.Ref, panel.Nearest(e.Ref, refs))
		return
	}
	d.say(e.Ref, "draft.made-label", e.Ref, e.Label)
}
