package page

import (
	"encoding/binary"
	"testing"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
)

// word is a big-endian 16-bit number of a font file.
func word(values ...int) []byte {
	var b []byte
	for _, v := range values {
		b = binary.BigEndian.AppendUint16(b, uint16(v))
	}
	return b
}

// fontFile puts tables together as a TrueType file.
func fontFile(tables map[string][]byte, tags ...string) []byte {
	file := append(word(0, 1, len(tags), 0, 0, 0), make([]byte, 16*len(tags))...)
	for i, tag := range tags {
		record := file[12+16*i:]
		copy(record, tag)
		binary.BigEndian.PutUint32(record[8:], uint32(len(file)))
		binary.BigEndian.PutUint32(record[12:], uint32(len(tables[tag])))
		file = append(file, tables[tag]...)
	}
	return file
}

// composites is a font of five glyphs: 0 empty, 1 simple, 2 made of 1 and 0, 3 made of 1 and 2, 4 made of 9.
func composites(long bool) []byte {
	head := append(make([]byte, 50), word(0, 0)...)
	simple := word(1, 0, 0, 100, 100)
	composite := func(first, second int) []byte {
		// The first part has words as arguments and a scale, the second bytes and a matrix.
		return word(-1, 0, 0, 100, 100, 0x0001|0x0008|0x0020, first, 10, 20, 0x4000, 0x0080, second, 0x0a0b, 1, 2, 3, 4)
	}
	glyphs := [][]byte{nil, simple, composite(1, 0), composite(1, 2), composite(9, 9)}
	var glyf, loca []byte
	for i := range len(glyphs) + 1 {
		if long {
			head[51] = 1
			loca = binary.BigEndian.AppendUint32(loca, uint32(len(glyf)))
		} else {
			loca = append(loca, word(len(glyf)/2)...)
		}
		if i < len(glyphs) {
			glyf = append(glyf, glyphs[i]...)
		}
	}
	return fontFile(map[string][]byte{"head": head, "loca": loca, "glyf": glyf}, "glyf", "head", "loca")
}

func TestOutlinesKnowWhatGetsLost(t *testing.T) {
	for _, long := range []bool{false, true} {
		o, err := readOutlines(composites(long))
		require.NoError(t, err)
		require.Len(t, o.glyphs, 5)
		parts, ok := o.parts(3)
		require.True(t, ok)
		require.Equal(t, []int{1, 2}, parts)
		require.True(t, o.whole(0))
		require.True(t, o.whole(1))
		require.True(t, o.whole(2))
		require.False(t, o.whole(3), "a part of a part is not embedded")
		require.False(t, o.whole(4), "a part that the font lacks")
		require.False(t, o.whole(5))
		require.False(t, o.whole(-1))
	}
}

func TestOutlinesRefuseCutFiles(t *testing.T) {
	file := composites(false)
	for size := range len(file) {
		if o, err := readOutlines(file[:size]); err == nil {
			require.Len(t, o.glyphs, 5, "cut to %d of %d bytes", size, len(file))
		}
	}
	_, err := readOutlines(fontFile(map[string][]byte{"head": make([]byte, 52)}, "head"))
	require.EqualError(t, err, `the font file has no table "loca"`)
}

// TestOutlinesOfShippedFaces: the faces in use have no nested composite glyph at all.
func TestOutlinesOfShippedFaces(t *testing.T) {
	for _, face := range Faces() {
		data, err := fonts.Files.ReadFile(string(face) + ".ttf")
		require.NoError(t, err)
		o, err := readOutlines(data)
		require.NoError(t, err)
		require.Greater(t, len(o.glyphs), 700)
		for glyph := range o.glyphs {
			require.True(t, o.whole(glyph), "glyph %d of %s", glyph, face)
		}
	}
}

func FuzzReadOutlines(f *testing.F) {
	f.Add(composites(false))
	f.Add(composites(true))
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, data []byte) {
		o, err := readOutlines(data)
		if err != nil {
			return
		}
		for glyph := range o.glyphs {
			o.whole(glyph)
		}
	})
}
