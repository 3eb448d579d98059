package share

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"hash/crc32"
	"io"
	"strconv"

	"halfsplit/core/panel"
)

// packVersion is the first byte of everything packed. It names the layout and the
// dictionary; a newer one is refused, not guessed at.
//
//	1 byte    version
//	varint    length of the document in bytes
//	4 bytes   CRC-32 (ISO 3309) of the document, big-endian
//	rest      the document, deflated (RFC 1951) with dictionary 1
const packVersion = 1

// MaxPacked bounds what is unpacked at all. A megabyte of deflate holds more than
// the largest document.
const MaxPacked = 4 << 20

// Pack makes a document short. The error is an *Error where it is none that can
// be read.
func Pack(data []byte) ([]byte, error) {
	if _, err := Read(data); err != nil {
		return nil, err
	}
	out := bytes.NewBuffer([]byte{packVersion})
	out.Write(binary.AppendUvarint(nil, uint64(len(data))))
	out.Write(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(data)))
	w, err := flate.NewWriterDict(out, flate.BestCompression, []byte(dictionary))
	if err == nil {
		_, err = w.Write(data)
	}
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		return nil, &Error{Code: "share.unpackable", Args: []string{err.Error()}}
	}
	return out.Bytes(), nil
}

// Unpack gives the document back, byte for byte, and refuses what is no longer
// what was packed. It holds no more than the length the header declares, which is
// bounded before anything is inflated. The error is an *Error.
func Unpack(packed []byte) ([]byte, error) {
	fail := func(code string, args ...string) ([]byte, error) { return nil, &Error{Code: code, Args: args} }
	if len(packed) > MaxPacked {
		return fail("share.packed-too-large", strconv.Itoa(MaxPacked>>20))
	}
	if len(packed) == 0 {
		return fail("share.nothing")
	}
	if packed[0] != packVersion {
		if packed[0] > packVersion && packed[0] < 16 {
			return fail("share.newer", strconv.Itoa(int(packed[0])), strconv.Itoa(packVersion))
		}
		return fail("share.not-packed")
	}
	length, n := binary.Uvarint(packed[1:])
	if n <= 0 || len(packed) < 1+n+4 {
		return fail("share.cut")
	}
	if length > panel.MaxBytes {
		return fail("too-large", strconv.Itoa(panel.MaxBytes>>20))
	}
	sum := binary.BigEndian.Uint32(packed[1+n:])
	r := flate.NewReaderDict(bytes.NewReader(packed[1+n+4:]), []byte(dictionary))
	var out bytes.Buffer // grows as bytes come, so that a header alone costs nothing
	got, err := io.Copy(&out, io.LimitReader(r, int64(length)+1))
	switch {
	case err == io.ErrUnexpectedEOF:
		return fail("share.cut")
	case err != nil:
		return fail("share.damaged")
	case uint64(got) > length:
		return fail("share.longer-than-said", strconv.FormatUint(length, 10))
	case uint64(got) < length:
		return fail("share.cut")
	}
	if crc32.ChecksumIEEE(out.Bytes()) != sum {
		return fail("share.damaged")
	}
	if _, err := Read(out.Bytes()); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
