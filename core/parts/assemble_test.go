package parts_test

import (
	"testing"

	"halfsplit/core/panel"
	"halfsplit/core/parts"
)

// Two blocks of one marking and two types: the jumper lands on the first, and
// nothing panics. Package check reports the second.
func TestAssembleDuplicateBlock(t *testing.T) {
	net := parts.Assemble(&panel.Panel{Strips: []panel.Strip{{Ref: "X1",
		Blocks:  []panel.Block{{No: "1", Type: "fuse-block", Fuse: "2 A T"}, {No: "1", Type: "feed-through"}, {No: "2", Type: "feed-through"}},
		Jumpers: []panel.Jumper{{Blocks: []string{"1", "2"}, Side: "out"}}}}})
	for _, b := range net.Branches {
		if b.Role == parts.RoleJumper && net.Nodes[b.Ends.A].Name == "X1:1/out" && net.Nodes[b.Ends.B].Name == "X1:2" {
			return
		}
	}
	t.Error("no jumper from X1:1/out to X1:2")
}
