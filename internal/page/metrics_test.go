package page

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"loomleaf/fonts"
)

func loadMetrics(t testing.TB) Metrics {
	m, err := LoadMetrics(fonts.Files)
	require.NoError(t, err)
	return m
}

func TestWidthOfMonospacedFaces(t *testing.T) {
	m := loadMetrics(t)
	// Go Mono is 1229 units of 2048 wide (its table hmtx): 600 thousandths, rounded down.
	require.Equal(t, Pt(9*600*4/10), m.Width(Mono, 900, "W101"))
	require.Equal(t, Pt(0), m.Width(Mono, 900, ""))
	require.Equal(t, Pt(1), m.Width(Mono, 1, "W"), "widths are rounded up")
}

func TestMissing(t *testing.T) {
	m := loadMetrics(t)
	for _, face := range Faces() {
		_, missing := m.Missing(face, "W101 J1:1>P2:7 Größe Ωμ ПЕРЕДАЧА Ѐ ± ≤ × → mm² AWG–")
		require.False(t, missing)
	}
	for text, want := range map[string]rune{
		"a\tb": '\t', "a\nb": '\n', "日本": '日', "x\u200by": '\u200b', "😀": '😀', "bad \xff byte": '\uFFFD', "e\u0301": '\u0301', "\x7f": '\x7f',
	} {
		r, missing := m.Missing(Regular, text)
		require.True(t, missing, "%q", text)
		require.Equal(t, want, r)
	}
}

func TestUnknownFacePrintsNothing(t *testing.T) {
	m := loadMetrics(t)
	r, missing := m.Missing("Nothing", "W")
	require.True(t, missing)
	require.Equal(t, 'W', r)
	require.Equal(t, Pt(0), m.Width("Nothing", 900, "W"))
	require.Equal(t, Pt(0), m.CapHeight("Nothing", 900))
}

func TestVerticalMeasures(t *testing.T) {
	m := loadMetrics(t)
	for _, face := range Faces() {
		ascent, capital, descent := m.Ascent(face, 10000), m.CapHeight(face, 10000), m.Descent(face, 10000)
		require.Greater(t, ascent, capital)
		require.InDelta(t, 7200, int(capital), 100, "capitals are some 0.72 of the type size")
		require.InDelta(t, 2100, int(descent), 100)
	}
}

func TestLoadMetricsNamesTheFace(t *testing.T) {
	_, err := LoadMetrics(fstest.MapFS{})
	require.ErrorContains(t, err, "face Go-Regular")
	_, err = LoadMetrics(fstest.MapFS{"Go-Regular.ttf": {Data: []byte("no font")}})
	require.ErrorContains(t, err, "face Go-Regular")
}

func BenchmarkLoadMetrics(b *testing.B) {
	for b.Loop() {
		_, err := LoadMetrics(fonts.Files)
		require.NoError(b, err)
	}
}
