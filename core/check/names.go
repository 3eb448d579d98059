package check

import (
	"strings"

	"halfsplit/core/panel"
)

// names checks designations, tags and numbers: written in the short form, unique,
// and without the characters that points and faults are written with.
func (c *checker) names() {
	if strings.TrimSpace(c.p.Name) == "" {
		c.report("name", "name-missing")
	}
	refs := map[string]bool{}
	ref := func(path, ref string) {
		switch {
		case ref == "":
			c.report(path, "ref-missing")
		case strings.ContainsAny(ref, ":/@~=; ") || ref != panel.Designation(ref):
			c.report(path+".ref", "ref-form", ref, plain(panel.Designation(ref)))
		case refs[ref]:
			c.report(path+".ref", "duplicate-ref", ref)
		}
		refs[ref] = true
	}
	for i := range c.p.Mains {
		ref(item("mains", i), c.p.Mains[i].Ref)
	}
	for i := range c.p.Strips {
		ref(item("strips", i), c.p.Strips[i].Ref)
	}
	tags := map[string]string{}
	for i := range c.p.Parts {
		p, path := &c.p.Parts[i], item("parts", i)
		ref(path, p.Ref)
		if p.Tag == "" {
			continue
		}
		if first, taken := tags[p.Tag]; taken {
			c.report(path+".tag", "duplicate-tag", p.Tag, first, p.Ref)
		} else {
			tags[p.Tag] = p.Ref
		}
	}
	c.wireNumbers()
}

func (c *checker) wireNumbers() {
	numbers := map[string]bool{}
	cores := map[[2]string]string{}
	for i := range c.p.Wires {
		w, path := &c.p.Wires[i], item("wires", i)
		switch {
		case w.No == "":
			c.report(path, "wire-number-missing", w.From, w.To)
		case strings.ContainsAny(w.No, ":@~=/; "):
			c.report(path+".no", "wire-number-form", w.No, plain(w.No))
		case numbers[w.No]:
			c.report(path+".no", "duplicate-wire", w.No)
		}
		numbers[w.No] = true
		if w.Core == "" {
			continue
		}
		if w.Cable == "" {
			c.report(path+".core", "core-without-cable", w.No, w.Core)
			continue
		}
		key := [2]string{w.Cable, w.Core}
		if first, taken := cores[key]; taken {
			c.report(path+".core", "duplicate-core", w.Cable, w.Core, first, w.No)
		} else {
			cores[key] = w.No
		}
	}
}

// plain is a name without the characters that points and faults are written with.
func plain(s string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(":/@~=; ", r) {
			return -1
		}
		return r
	}, s)
}
