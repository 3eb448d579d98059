package share

import (
	"hash/crc32"
	"slices"
	"strconv"
	"strings"
)

// A part is one of several codes that together carry something packed:
//
//	HS1:ID:INDEX:COUNT:SUM:DATA.
//
// ID is the CRC-32 of the whole and SUM that of ID:INDEX:COUNT:DATA, eight
// hexadecimal digits each; INDEX counts from 1; DATA is base45. The point at the
// end keeps a space that DATA may end with. All of it is in the alphanumeric set
// of QR codes. Parts may be read in any order and more than once.
const partMark = "HS1:"

// What a set of codes may be, choices: a door has room for no more, and a code
// below the least size is mostly header.
const (
	MaxParts = 99
	MinPart  = 100  // characters of one code
	MaxPart  = 4296 // the most one QR code takes in alphanumeric mode, ISO/IEC 18004
)

// Split cuts something packed into parts of at most size characters each. The
// error is an *Error where that would be too many.
func Split(packed []byte, size int) ([]string, error) {
	if size < MinPart || size > MaxPart {
		return nil, &Error{Code: "share.part-size", Args: []string{strconv.Itoa(size), strconv.Itoa(MinPart), strconv.Itoa(MaxPart)}}
	}
	const headroom = len(partMark) + 8 + 1 + 2 + 1 + 2 + 1 + 8 + 1 + 1
	room := (size - headroom) / 3 * 2
	count := max(1, (len(packed)+room-1)/room)
	if count > MaxParts {
		return nil, &Error{Code: "share.too-many-parts", Args: []string{strconv.Itoa(count), strconv.Itoa(MaxParts)}}
	}
	each := (len(packed) + count - 1) / count
	each += each % 2 // whole groups of three characters
	var list []string
	id := sum(string(packed))
	for i := range count {
		data := encode45(packed[min(i*each, len(packed)):min((i+1)*each, len(packed))])
		body := id + ":" + strconv.Itoa(i+1) + ":" + strconv.Itoa(count)
		list = append(list, partMark+body+":"+sum(body+":"+data)+":"+data+".")
	}
	return list, nil
}

func sum(s string) string {
	h := strings.ToUpper(strconv.FormatUint(uint64(crc32.ChecksumIEEE([]byte(s))), 16))
	return strings.Repeat("0", 8-len(h)) + h
}

// Gathered says how far a set of parts has come.
type Gathered struct {
	ID      string
	Count   int
	Have    []int // indices from 1, in order
	Missing []int
	Damaged int // texts that are parts and do not agree with their checksum
	Foreign int // good parts of another set
}

// Join puts parts together, in any order and with repeats. Of several sets, the
// one with most of its parts is joined. The packed bytes are nil while some are
// missing; Gathered says which.
//
// The error is an *Error: no part at all, or parts that contradict each other.
func Join(texts []string) ([]byte, *Gathered, error) {
	type set struct {
		count int
		data  map[int][]byte
	}
	sets := map[string]*set{}
	var order []string
	damaged, good := 0, 0
	for _, text := range texts {
		p, ok := readPart(text)
		if !ok {
			damaged++
			continue
		}
		good++
		s := sets[p.id]
		if s == nil {
			s = &set{count: p.count, data: map[int][]byte{}}
			sets[p.id] = s
			order = append(order, p.id)
		}
		if have, twice := s.data[p.index]; s.count != p.count || twice && string(have) != string(p.data) {
			return nil, nil, &Error{Code: "share.parts-disagree", Args: []string{p.id}}
		}
		s.data[p.index] = p.data
	}
	if good == 0 {
		if damaged > 0 {
			return nil, nil, &Error{Code: "share.parts-damaged", Args: []string{strconv.Itoa(damaged)}}
		}
		return nil, nil, &Error{Code: "share.nothing"}
	}
	best := order[0]
	for _, id := range order {
		if len(sets[id].data)*sets[best].count > len(sets[best].data)*sets[id].count {
			best = id
		}
	}
	s := sets[best]
	g := &Gathered{ID: best, Count: s.count, Damaged: damaged}
	for _, id := range order {
		if id != best {
			g.Foreign += len(sets[id].data)
		}
	}
	var packed []byte
	for i := 1; i <= s.count; i++ {
		if data, ok := s.data[i]; ok {
			g.Have = append(g.Have, i)
			packed = append(packed, data...)
		} else {
			g.Missing = append(g.Missing, i)
		}
	}
	if len(g.Missing) > 0 {
		return nil, g, nil
	}
	if sum(string(packed)) != best {
		return nil, g, &Error{Code: "share.parts-disagree", Args: []string{best}}
	}
	return packed, g, nil
}

type part struct {
	id           string
	index, count int
	data         []byte
}

func readPart(text string) (p part, ok bool) {
	text, ok = strings.CutPrefix(strings.TrimLeft(text, " \t\r\n"), partMark)
	if !ok {
		return p, false
	}
	text, ok = strings.CutSuffix(strings.TrimRight(text, " \t\r\n"), ".")
	fields := strings.SplitN(text, ":", 5)
	if !ok || len(fields) != 5 || len(text) > MaxPart {
		return p, false
	}
	var err1, err2 error
	p.id = fields[0]
	p.index, err1 = strconv.Atoi(fields[1])
	p.count, err2 = strconv.Atoi(fields[2])
	if err1 != nil || err2 != nil || p.count < 1 || p.count > MaxParts || p.index < 1 || p.index > p.count ||
		fields[3] != sum(strings.Join(slices.Concat(fields[:3], fields[4:]), ":")) {
		return p, false
	}
	p.data, ok = decode45(fields[4])
	return p, ok
}

// IsPart says that a text is one of several codes, whole or not.
func IsPart(text string) bool { return strings.HasPrefix(strings.TrimSpace(text), partMark) }
