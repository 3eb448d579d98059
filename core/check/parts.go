package check

import (
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

// most channels a controller card may have in the model.
const mostChannels = 64

func (c *checker) parts() {
	for i := range c.p.Parts {
		p, path := &c.p.Parts[i], item("parts", i)
		if p.At != "" && p.At != "panel" && p.At != "field" {
			c.report(path+".at", "place-unknown", p.Ref, p.At, panel.Nearest(p.At, []string{"panel", "field"}))
		}
		k, known := parts.Lookup(p.Kind)
		switch {
		case p.Kind == "":
			c.report(path, "kind-missing", p.Ref, list(kindNames(false)))
			continue
		case !known:
			c.report(path+".kind", "unknown-kind", p.Ref, p.Kind, list(kindNames(false)), panel.Nearest(p.Kind, kindNames(false)))
			continue
		case k.Block:
			c.report(path+".kind", "block-as-part", p.Ref, p.Kind)
			continue
		case isMains(k):
			c.report(path+".kind", "mains-as-part", p.Ref)
			continue
		}
		c.letter(p, k, path)
		c.ratings(p, k, path)
		c.contacts(p, k, path)
		c.channels(p, k, path)
	}
}

// letter compares the first letters of a designation with those that IEC 81346-2
// and older habit give the kind.
func (c *checker) letter(p *panel.Part, k *parts.Kind, path string) {
	letters := strings.TrimRight(p.Ref, "0123456789.")
	if letters == "" || len(k.Letters) == 0 || len(letters) == len(p.Ref) || strings.Trim(letters, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return // a name rather than a designation
	}
	if !slices.ContainsFunc(k.Letters, func(l string) bool { return strings.HasPrefix(letters, l) }) {
		c.report(path+".ref", "letter-unusual", p.Ref, p.Kind, list(k.Letters))
	}
}

func (c *checker) ratings(p *panel.Part, k *parts.Kind, path string) {
	var known []string
	for _, r := range k.Ratings {
		known = append(known, r.Name)
		at := panel.Key(path+".ratings", r.Name)
		text, given := p.Ratings[r.Name]
		switch {
		case r.Link && (!given || text == ""):
			c.report(path, "rating-missing", p.Ref, r.Name, "2 A T")
		case r.Link:
			if _, err := unit.ParseFuse(text); err != nil {
				c.report(at, "fuse-unreadable", p.Ref, text)
			}
		case r.Dim != 0:
			c.quantity(at, p.Ref, r.Name, text, r.Dim, r.Must)
		case given && len(r.Words) > 0 && !slices.Contains(r.Words, text):
			c.report(at, "rating-word", p.Ref, r.Name, text, list(r.Words), panel.Nearest(text, r.Words))
		}
	}
	for _, name := range sortedKeys(p.Ratings) {
		if !slices.Contains(known, name) {
			c.report(panel.Key(path+".ratings", name), "unknown-rating", p.Ref, p.Kind, name, list(known), panel.Nearest(name, known))
		}
	}
}

// contacts checks markings after EN 50005: two figures, the last of which says
// what the contact does.
func (c *checker) contacts(p *panel.Part, k *parts.Kind, path string) {
	if len(p.Contacts) == 0 {
		return
	}
	if !takesContacts(p, k) {
		c.report(path+".contacts", "contacts-needless", p.Ref, p.Kind)
		return
	}
	seen := map[string]bool{}
	for i, s := range p.Contacts {
		at := item(path+".contacts", i)
		if _, ok := parts.ParseContact(s); !ok {
			code := "contact-unreadable"
			if numbers(s) {
				code = "contact-function"
			}
			c.report(at, code, p.Ref, s)
			continue
		}
		for _, m := range strings.Split(s, "-") {
			if seen[m] {
				c.report(at, "contact-twice", p.Ref, s, m)
				break
			}
			seen[m] = true
		}
	}
}

// takesContacts says that the terminals of a kind depend on its contacts.
func takesContacts(p *panel.Part, k *parts.Kind) bool {
	one, other := *p, *p
	one.Contacts, other.Contacts = []string{"13-14"}, []string{"23-24"}
	return !slices.Equal(k.Terminals(&one), k.Terminals(&other))
}

// numbers says that s is two or three numbers of two or three figures, joined by
// dashes: marks, if not those of a contact.
func numbers(s string) bool {
	marks := strings.Split(s, "-")
	for _, m := range marks {
		if len(m) < 2 || len(m) > 3 || strings.Trim(m, "0123456789") != "" {
			return false
		}
	}
	return len(marks) == 2 || len(marks) == 3
}

func (c *checker) channels(p *panel.Part, k *parts.Kind, path string) {
	if p.Channels == 0 {
		return
	}
	one, two := *p, *p
	one.Channels, two.Channels = 1, 2
	switch {
	case slices.Equal(k.Terminals(&one), k.Terminals(&two)):
		c.report(path+".channels", "channels-needless", p.Ref, p.Kind)
	case p.Channels < 0 || p.Channels > mostChannels:
		c.report(path+".channels", "channels-range", p.Ref, strconv.Itoa(p.Channels), strconv.Itoa(mostChannels))
	}
}

func sortedKeys(m map[string]string) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
