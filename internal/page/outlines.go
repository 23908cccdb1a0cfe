package page

import (
	"encoding/binary"
	"errors"
	"fmt"
)

// outlines is the glyf table of a TrueType file, cut up by glyph (OpenType specification, tables glyf and loca).
type outlines struct {
	glyphs [][]byte
}

// errCutOff says that a table ends before what it announces.
var errCutOff = errors.New("the font file is cut off")

// readOutlines reads the glyphs of a TrueType file.
func readOutlines(data []byte) (outlines, error) {
	var tables [3][]byte
	for i, tag := range []string{"head", "loca", "glyf"} {
		table, err := fontTable(data, tag)
		if err != nil {
			return outlines{}, err
		}
		tables[i] = table
	}
	head, loca, glyf := tables[0], tables[1], tables[2]
	const locaFormat = 50 // place of indexToLocFormat in head
	if len(head) < locaFormat+2 {
		return outlines{}, errCutOff
	}
	offsets := longOffsets
	if binary.BigEndian.Uint16(head[locaFormat:]) == 0 {
		offsets = shortOffsets
	}
	return cutGlyphs(glyf, offsets(loca))
}

func shortOffsets(loca []byte) []int {
	offsets := make([]int, len(loca)/2)
	for i := range offsets {
		offsets[i] = 2 * int(binary.BigEndian.Uint16(loca[2*i:]))
	}
	return offsets
}

func longOffsets(loca []byte) []int {
	offsets := make([]int, len(loca)/4)
	for i := range offsets {
		offsets[i] = int(binary.BigEndian.Uint32(loca[4*i:]))
	}
	return offsets
}

func cutGlyphs(glyf []byte, offsets []int) (outlines, error) {
	var o outlines
	for i := 1; i < len(offsets); i++ {
		from, to := offsets[i-1], offsets[i]
		if from > to || to > len(glyf) {
			return outlines{}, errCutOff
		}
		o.glyphs = append(o.glyphs, glyf[from:to])
	}
	return o, nil
}

// fontTable returns the table of a TrueType file by its tag.
func fontTable(data []byte, tag string) ([]byte, error) {
	const header, record = 12, 16
	if len(data) < header {
		return nil, errCutOff
	}
	count := int(binary.BigEndian.Uint16(data[4:]))
	for i := range count {
		at := header + i*record
		if at+record > len(data) {
			return nil, errCutOff
		}
		if string(data[at:at+4]) != tag {
			continue
		}
		from := int(binary.BigEndian.Uint32(data[at+8:]))
		to := from + int(binary.BigEndian.Uint32(data[at+12:]))
		if to > len(data) {
			return nil, errCutOff
		}
		return data[from:to], nil
	}
	return nil, fmt.Errorf("the font file has no table %q", tag)
}

// whole reports whether the PDF carries every part of a glyph. The writer embeds a glyph and the parts it is put
// together from, but not the parts of those parts.
func (o outlines) whole(glyph int) bool {
	parts, ok := o.parts(glyph)
	for _, part := range parts {
		deeper, readable := o.parts(part)
		ok = ok && readable && len(deeper) == 0
	}
	return ok
}

// parts returns the glyphs that a composite glyph is put together from, none for a simple one, and whether the glyph
// could be read.
func (o outlines) parts(glyph int) ([]int, bool) {
	const (
		argumentsAreWords = 0x0001
		hasScale          = 0x0008
		moreParts         = 0x0020
		hasTwoScales      = 0x0040
		hasMatrix         = 0x0080
	)
	if glyph < 0 || glyph >= len(o.glyphs) {
		return nil, false
	}
	data := o.glyphs[glyph]
	if len(data) < 2 || int16(binary.BigEndian.Uint16(data)) >= 0 {
		return nil, len(data) != 1
	}
	var parts []int
	for at := 10; at+4 <= len(data); {
		flags := binary.BigEndian.Uint16(data[at:])
		parts = append(parts, int(binary.BigEndian.Uint16(data[at+2:])))
		if flags&moreParts == 0 {
			return parts, true
		}
		at += 6
		for _, extra := range []struct{ flag, size int }{{argumentsAreWords, 2}, {hasScale, 2}, {hasTwoScales, 4}, {hasMatrix, 8}} {
			if int(flags)&extra.flag != 0 {
				at += extra.size
			}
		}
	}
	return parts, false
}
