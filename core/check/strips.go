package check

import (
	"slices"
	"strconv"
	"strings"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
	"halfsplit/core/unit"
)

func (c *checker) strips() {
	for i := range c.p.Strips {
		s, path := &c.p.Strips[i], item("strips", i)
		if len(s.Blocks) == 0 {
			c.report(path, "strip-empty", s.Ref)
		}
		marks := map[string]int{} // marking → first block that has it
		for j := range s.Blocks {
			b, at := &s.Blocks[j], item(path+".blocks", j)
			switch {
			case b.No == "":
				c.report(at, "block-number-missing", s.Ref)
			case strings.ContainsAny(b.No, ":/@~=; "):
				c.report(at+".no", "block-number-form", s.Ref, b.No, plain(b.No))
			default:
				if _, taken := marks[b.No]; taken {
					c.report(at+".no", "duplicate-block", s.Ref, b.No)
				}
			}
			if _, taken := marks[b.No]; !taken {
				marks[b.No] = j
			}
			c.block(s.Ref, b, at)
		}
		for j := range s.Jumpers {
			c.jumper(s, marks, &s.Jumpers[j], item(path+".jumpers", j))
		}
	}
}

func (c *checker) block(strip string, b *panel.Block, path string) {
	name := strip + ":" + b.No
	k, known := parts.Lookup(b.Type)
	switch {
	case b.Type == "":
		c.report(path, "block-type-missing", name, list(kindNames(true)))
		return
	case !known:
		c.report(path+".type", "unknown-block-type", name, b.Type, list(kindNames(true)), panel.Nearest(b.Type, kindNames(true)))
		return
	case !k.Block:
		c.report(path+".type", "part-on-strip", name, b.Type)
		return
	}
	switch {
	case k.Fused && b.Fuse == "":
		c.report(path, "fuse-missing", name, b.Type)
	case k.Fused:
		if _, err := unit.ParseFuse(b.Fuse); err != nil {
			c.report(path+".fuse", "fuse-unreadable", name, b.Fuse)
		}
	case b.Fuse != "":
		c.report(path+".fuse", "fuse-needless", name, b.Type, b.Fuse)
	}
	switch {
	case b.Indicator == "":
	case k.Fused:
		c.quantity(path+".indicator", name, "indicator", b.Indicator, unit.Voltage, false)
	default:
		c.report(path+".indicator", "indicator-needless", name, b.Type)
	}
}

// levels lists the levels of a block kind; empty where it has one.
func levels(k *parts.Kind) []string {
	var out []string
	for _, m := range k.Metals {
		if l := strconv.Itoa(m.Level); m.Level > 0 && !slices.Contains(out, l) {
			out = append(out, l)
		}
	}
	return out
}

// sided says whether in and out of a level are two pieces of metal.
func sided(k *parts.Kind, level int) bool {
	return slices.ContainsFunc(k.Metals, func(m parts.Metal) bool {
		return m.Side != "" && (m.Level == level || m.Level == 0 || level == 0)
	})
}

func (c *checker) jumper(s *panel.Strip, marks map[string]int, j *panel.Jumper, path string) {
	if len(j.Blocks) < 2 {
		c.report(path, "jumper-one-block", s.Ref, list(j.Blocks))
	}
	if j.Side != "" && j.Side != "in" && j.Side != "out" {
		c.report(path+".side", "jumper-side-unknown", s.Ref, j.Side)
	}
	before := -1
	for n, no := range j.Blocks {
		at := item(path+".blocks", n)
		i, ok := marks[no]
		if !ok {
			c.report(at, "jumper-unknown-block", s.Ref, no, c.nearest(no, func() []string { return blockNumbers(s) }))
			continue
		}
		if before >= 0 {
			switch {
			case i == before:
				c.report(at, "jumper-block-twice", s.Ref, no)
			case i < before:
				c.report(at, "jumper-order", s.Ref, s.Blocks[before].No, no)
			case i > before+1:
				c.report(at, "jumper-skips", s.Ref, s.Blocks[before].No, no, s.Blocks[before+1].No)
			}
		}
		before = i
		c.jumperFits(s, j, &s.Blocks[i], at)
	}
}

// jumperFits checks that level and side of a jumper name one piece of metal of
// the block.
func (c *checker) jumperFits(s *panel.Strip, j *panel.Jumper, b *panel.Block, path string) {
	k, ok := parts.Lookup(b.Type)
	if !ok || !k.Block {
		return // told at the block
	}
	have := levels(k)
	switch {
	case j.Level == 0 && len(have) > 0:
		c.report(path, "jumper-level-missing", s.Ref, b.No, list(have))
	case j.Level != 0 && len(have) > 0 && !slices.Contains(have, strconv.Itoa(j.Level)):
		c.report(path, "jumper-level-unknown", s.Ref, b.No, strconv.Itoa(j.Level), list(have))
	case j.Side == "" && sided(k, j.Level):
		c.report(path, "jumper-side-missing", s.Ref, b.No, b.Type)
	}
}

func blockNumbers(s *panel.Strip) []string {
	var nos []string
	for i := range s.Blocks {
		nos = append(nos, s.Blocks[i].No)
	}
	return nos
}
