package share_test

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"math/rand/v2"
	"runtime"
	"strings"
	"testing"

	"halfsplit/core/draft"
	"halfsplit/core/panel"
	"halfsplit/core/record"
	"halfsplit/core/share"
	"halfsplit/scenarios"
)

// documents are one of each kind, the demo panels among them.
func documents(t testing.TB) map[string][]byte {
	t.Helper()
	all := map[string][]byte{
		"job": record.Write(&record.Job{Title: "B1 dead", Panel: small(), Steps: []record.JobStep{{Kind: "look", Ref: "P1", Shown: "dark"}}}),
		"drill": []byte(`{"format":"halfsplit-drill","version":1,"name":"x","grade":1,"demo":"training-bench","complaint":"dead",` +
			`"hidden":{"faults":["X1:1=fuse-blown"],"plan":{"steps":2},"explanation":"the fuse"}}`),
	}
	for _, name := range []string{"training-bench", "dosing-skid"} {
		data, err := scenarios.Panel(name)
		if err != nil {
			t.Fatal(err)
		}
		all[name] = data
	}
	for name, data := range all {
		if _, err := share.Read(data); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	return all
}

func small() *panel.Panel {
	p, _, err := draft.Apply(draft.New(), []draft.Edit{
		{Op: draft.Name, Name: "Pump Ω"}, {Op: draft.Strip, Ref: "X1", Count: 6}, {Op: draft.Part, Kind: "pilot-light"},
		{Op: draft.Part, Kind: "relay", Ref: "K1"}, {Op: draft.Jumper, Ref: "X1", From: "1", To: "3"},
		{Op: draft.Wire, From: "X1:1", To: "P1:X1"}, {Op: draft.Wire, From: "X1:4", To: "P1:X2"}, {Op: draft.Wire, From: "X1:5", To: "K1:A1"},
	}, nil)
	if err != nil {
		panic(err)
	}
	return p
}

// What is packed comes back byte for byte, over every road.
func TestPackUnpackIdentity(t *testing.T) {
	for name, data := range documents(t) {
		packed, err := share.Pack(data)
		if err != nil {
			t.Fatal(err)
		}
		for road, text := range map[string]string{
			"link": share.Link(packed), "address": "https://example.org/#" + share.Link(packed) + "\n",
			"broken lines": strings.Join(strings.SplitAfter(share.Link(packed), "A"), "\n"), "itself": string(data),
			"codes": strings.Join(split(t, packed, 300), "\n"),
		} {
			got, _, err := share.Open(text)
			if err != nil || !bytes.Equal(got, data) {
				t.Errorf("%s by %s: %v", name, road, err)
			}
		}
		t.Logf("%s: %d bytes, packed %d", name, len(data), len(packed))
		if len(packed) >= len(data)*2/3 {
			t.Errorf("%s: %d bytes packed into %d", name, len(data), len(packed))
		}
	}
}

func split(t *testing.T, packed []byte, size int) []string {
	t.Helper()
	list, err := share.Split(packed, size)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// Codes in any order, with repeats, spaces around and codes of another set, join;
// with any one lost, the missing one is named.
func TestPartsInAnyOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	packed, err := share.Pack(documents(t)["training-bench"])
	if err != nil {
		t.Fatal(err)
	}
	other, err := share.Pack(documents(t)["job"])
	if err != nil {
		t.Fatal(err)
	}
	foreign := split(t, other, 400)[0]
	for _, size := range []int{share.MinPart, 101, 102, 103, 300, 301, 1000, share.MaxPart} {
		parts := split(t, packed, size)
		for _, p := range parts {
			if len(p) > size {
				t.Errorf("size %d: a code of %d characters", size, len(p))
			}
			if i := strings.IndexFunc(p, func(r rune) bool { return !strings.ContainsRune("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:", r) }); i >= 0 {
				t.Errorf("%q is not in the alphanumeric set of ISO/IEC 18004", p[i])
			}
		}
		mixed := append(append([]string{}, parts...), parts[rng.IntN(len(parts))], parts[0])
		if len(parts) > 2 {
			mixed = append(mixed, foreign, "HS1:rubbish.")
		}
		rng.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
		for i := range mixed {
			mixed[i] = "\t" + mixed[i] + " \r"
		}
		got, g, err := share.Join(mixed)
		if err != nil || !bytes.Equal(got, packed) || len(g.Have) != len(parts) || len(g.Missing) != 0 {
			t.Errorf("size %d: %v, %+v", size, err, g)
		}
		if len(parts) < 3 {
			continue
		}
		if g.Foreign != 1 || g.Damaged != 1 {
			t.Errorf("size %d: foreign %d, damaged %d", size, g.Foreign, g.Damaged)
		}
		lost := rng.IntN(len(parts))
		rest := append(append([]string{}, parts[:lost]...), parts[lost+1:]...)
		got, g, err = share.Join(rest)
		if err != nil || got != nil || fmt.Sprint(g.Missing) != fmt.Sprint([]int{lost + 1}) || g.Count != len(parts) {
			t.Errorf("size %d without code %d: %v %+v", size, lost+1, err, g)
		}
	}
}

// One character read wrong anywhere in a code is noticed.
func TestDamagedPartIsNoticed(t *testing.T) {
	packed, _ := share.Pack(documents(t)["job"])
	part := split(t, packed, 400)[0]
	for i := range part {
		for _, c := range "0Z:. " {
			if rune(part[i]) == c {
				continue
			}
			bad := part[:i] + string(c) + part[i+1:]
			if _, g, err := share.Join([]string{bad}); err == nil && g.Damaged == 0 {
				t.Fatalf("character %d read as %q goes unnoticed", i, c)
			}
		}
	}
}

func code(err error) string {
	var e *share.Error
	if errors.As(err, &e) {
		return e.Code
	}
	return fmt.Sprint(err)
}

// packedBy builds what Pack would have, with a header of the test's own.
func packedBy(t *testing.T, version byte, length int, body []byte) []byte {
	t.Helper()
	out := bytes.NewBuffer([]byte{version})
	out.Write(binary.AppendUvarint(nil, uint64(length)))
	out.Write(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(body)))
	w, err := flate.NewWriter(out, flate.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write(body); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// What a stranger sends is bounded before it is believed.
func TestUnpackRefuses(t *testing.T) {
	bomb := bytes.Repeat([]byte(" "), 17<<20)
	good, _ := share.Pack(documents(t)["training-bench"])
	flipped := bytes.Clone(good)
	flipped[len(flipped)/2] ^= 1
	for _, tc := range []struct {
		name   string
		packed []byte
		code   string
	}{
		{"nothing", nil, "share.nothing"},
		{"a bomb that says its size", packedBy(t, 1, len(bomb), bomb), "too-large"},
		{"a bomb that says it is small", packedBy(t, 1, 100, bomb), "share.longer-than-said"},
		{"a length beyond counting", append([]byte{1}, bytes.Repeat([]byte{0xff}, 20)...), "share.cut"},
		{"a length without content", packedBy(t, 1, 15<<20, []byte("{}")), "share.cut"},
		{"a newer version", packedBy(t, 2, 2, []byte("{}")), "share.newer"},
		{"a picture", []byte("\x89PNG\r\n\x1a\n"), "share.not-packed"},
		{"cut", good[:len(good)-9], "share.cut"},
		{"only a header", good[:5], "share.cut"},
		{"deep nesting", packedBy(t, 1, 1<<20, bytes.Repeat([]byte("["), 1<<20)), "share.unread"},
		{"another format", packedBy(t, 1, 24, []byte(`{"format":"x","version":1`)[:24]), "share.unread"},
		{"far too much", make([]byte, share.MaxPacked+1), "share.packed-too-large"},
	} {
		if data, err := share.Unpack(tc.packed); code(err) != tc.code || data != nil {
			t.Errorf("%s: %v, want %s", tc.name, err, tc.code)
		}
	}
	if _, err := share.Unpack(flipped); err == nil {
		t.Error("a flipped bit goes unnoticed")
	}
	if _, err := share.Split(good, 99); code(err) != "share.part-size" {
		t.Error(err)
	}
	if _, err := share.Split(make([]byte, 1<<20), 4296); code(err) != "share.too-many-parts" {
		t.Error(err)
	}
	for text, want := range map[string]string{"": "share.nothing", "hello": "share.not-packed", "open=AAAA": "share.not-packed", "{}": "share.unread",
		"HS1:": "share.parts-damaged", "HS1:00000000:1:99999999999:0:.": "share.parts-damaged"} {
		if _, _, err := share.Open(text); code(err) != want {
			t.Errorf("%q: %v, want %s", text, err, want)
		}
	}
}

func FuzzOpen(f *testing.F) {
	packed, err := share.Pack(panel.Write(small()))
	if err != nil {
		f.Fatal(err)
	}
	parts, err := share.Split(packed, 120)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(strings.Join(parts, "\n"))
	f.Add(strings.Join(parts[1:], "\n"))
	f.Add(share.Link(packed))
	f.Add(string(panel.Write(small())))
	f.Add("HS1:0:1:1:0:.")
	f.Fuzz(func(t *testing.T, text string) {
		data, _, err := share.Open(text)
		if err != nil {
			var e *share.Error
			if !errors.As(err, &e) {
				t.Fatalf("an error of another type: %v", err)
			}
			return
		}
		if data == nil {
			return
		}
		again, err := share.Pack(data)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := share.Unpack(again); err != nil || !bytes.Equal(back, data) {
			t.Fatalf("%v", err)
		}
	})
}

func FuzzUnpack(f *testing.F) {
	packed, err := share.Pack(panel.Write(small()))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(packed)
	f.Add(packed[:20])
	f.Add([]byte{1, 255, 255, 255, 7, 0, 0, 0, 0})
	f.Fuzz(func(t *testing.T, data []byte) {
		if doc, err := share.Unpack(data); err == nil {
			if _, err := share.Read(doc); err != nil {
				t.Fatal(err)
			}
		}
	})
}

// A bomb that says it is small costs no more than what it says, whatever it would
// inflate to.
func TestBombCostsNothing(t *testing.T) {
	bomb := packedBy(t, 1, 100, bytes.Repeat([]byte(" "), 16<<20))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, err := share.Unpack(bomb)
	runtime.ReadMemStats(&after)
	if used := after.TotalAlloc - before.TotalAlloc; used > 4<<20 || code(err) != "share.longer-than-said" {
		t.Errorf("%d bytes were allocated; %v", used, err)
	}
}

// A document whose checksum is another's is refused, even where it could be read.
func TestWrongChecksum(t *testing.T) {
	data := documents(t)["job"]
	good := packedBy(t, 1, len(data), data)
	if got, err := share.Unpack(good); err != nil || !bytes.Equal(got, data) { // deflate without the dictionary is deflate
		t.Fatal(err)
	}
	_, n := binary.Uvarint(good[1:])
	good[1+n] ^= 1
	if _, err := share.Unpack(good); code(err) != "share.damaged" {
		t.Error(err)
	}
}
