package pdf

import (
	"encoding/binary"
	"slices"
	"testing"

	"github.com/signintech/gopdf"
	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
	"loomleaf/internal/page"
)

// printable returns the characters that a face prints.
func printable(m page.Metrics, face page.Face) []rune {
	var runes []rune
	for r := rune(0); r <= 0x10FFFF; r++ {
		if _, missing := m.Missing(face, string(r)); !missing {
			runes = append(runes, r)
		}
	}
	return runes
}

// TestEveryCharacterOfEveryFace asks the library itself, character by character: it has a glyph, the glyph arrives with
// all its parts, no other character has the same glyph, and its width is the one that pages are laid out with.
func TestEveryCharacterOfEveryFace(t *testing.T) {
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	for _, face := range page.Faces() {
		t.Run(string(face), func(t *testing.T) {
			data, err := fonts.Files.ReadFile(string(face) + ".ttf")
			require.NoError(t, err)
			runes := printable(metrics, face)
			require.Greater(t, len(runes), 690)
			require.Contains(t, runes, '\u0400')

			file := &gopdf.GoPdf{}
			file.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: *gopdf.PageSizeA4})
			require.NoError(t, file.AddTTFFontData(string(face), data))
			require.NoError(t, file.SetFont(string(face), "", 1000))
			font := parsedFont(t, data)
			owner := map[uint]rune{}
			for _, r := range runes {
				glyph, err := font.CharCodeToGlyphIndex(r)
				require.NoError(t, err, "U+%04X", r)
				require.NotZero(t, glyph, "U+%04X", r)
				require.NotContains(t, owner, glyph, "U+%04X and U+%04X would be copied as one of them", r, owner[glyph])
				owner[glyph] = r
				requireWhole(t, data, font, int(glyph))
				width, err := file.MeasureTextWidth(string(r))
				require.NoError(t, err)
				require.Equal(t, width, points(metrics.Width(face, 1000*page.Point, string(r))), "U+%04X", r)
			}
		})
	}
}

func parsedFont(t *testing.T, data []byte) *gopdf.SubsetFontObj {
	font := &gopdf.SubsetFontObj{}
	font.SetTtfFontOption(gopdf.TtfOption{})
	require.NoError(t, font.SetTTFData(data))
	return font
}

// requireWhole asks that the library embeds everything a glyph is put together from.
func requireWhole(t *testing.T, data []byte, font *gopdf.SubsetFontObj, glyph int) {
	dictionary := &gopdf.PdfDictionaryObj{}
	dictionary.SetPtrToSubsetFontObj(font)
	embedded := []int{glyph}
	dictionary.AddCompositeGlyphs(&embedded, glyph)
	for _, part := range closure(t, data, font, glyph) {
		require.Contains(t, embedded, part, "a part of glyph %d", glyph)
	}
}

// closure returns a glyph and all parts of its parts, read from the font by this test alone.
func closure(t *testing.T, data []byte, font *gopdf.SubsetFontObj, glyph int) []int {
	parser := font.GetTTFParser()
	all := []int{glyph}
	for i := 0; i < len(all); i++ {
		start := parser.GetTables()["glyf"].Offset + parser.LocaTable[all[i]]
		end := parser.GetTables()["glyf"].Offset + parser.LocaTable[all[i]+1]
		outline := data[start:end]
		if len(outline) == 0 || outline[0] < 0x80 {
			continue
		}
		require.NotEmpty(t, outline[10:])
		for rest, more := outline[10:], true; more; {
			flags := binary.BigEndian.Uint16(rest)
			if part := int(binary.BigEndian.Uint16(rest[2:])); !slices.Contains(all, part) {
				all = append(all, part)
			}
			size := 6 + 2*int(flags&1) + 2*int(flags>>3&1) + 4*int(flags>>6&1) + 8*int(flags>>7&1)
			more, rest = flags&0x20 != 0, rest[size:]
		}
	}
	return all
}

// TestWidthsOfWholeTexts: the sum over a text is the library's, rounded up to the hundredth of a point.
func TestWidthsOfWholeTexts(t *testing.T) {
	metrics, err := page.LoadMetrics(fonts.Files)
	require.NoError(t, err)
	file := &gopdf.GoPdf{}
	file.Start(gopdf.Config{Unit: gopdf.UnitPT, PageSize: *gopdf.PageSizeA4})
	for _, face := range page.Faces() {
		data, err := fonts.Files.ReadFile(string(face) + ".ttf")
		require.NoError(t, err)
		require.NoError(t, file.AddTTFFontData(string(face), data))
		for _, size := range []page.Pt{700, 825, 900, 3600} {
			require.NoError(t, file.SetFont(string(face), "", points(size)))
			const text = "W101 J1:1>P2:7, AV To 0,34 mm² – Größe"
			width, err := file.MeasureTextWidth(text)
			require.NoError(t, err)
			require.InDelta(t, width, points(metrics.Width(face, size, text)), 0.01)
			require.GreaterOrEqual(t, points(metrics.Width(face, size, text)), width-1e-9)
		}
	}
}
