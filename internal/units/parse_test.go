package units

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// reader is one kind of quantity with its values as bare integers.
type reader struct {
	name  string
	read  func(string) (int64, error)
	print func(int64) string
	limit int64
	low   int64
}

func as[T ~int64](parse func(string) (T, error)) func(string) (int64, error) {
	return func(text string) (int64, error) {
		value, err := parse(text)
		return int64(value), err
	}
}

func readers() []reader {
	return []reader{
		{"length", as(ParseLength), func(v int64) string { return Length(v).String() }, 1e12, -1e12},
		{"area", as(ParseArea), func(v int64) string { return Area(v).String() }, 1e12, 0},
		{"mass", as(ParseMass), func(v int64) string { return Mass(v).String() }, 1e12, 0},
		{"linear mass", as(ParseLinearMass), func(v int64) string { return LinearMass(v).String() }, 1e9, 0},
		{"time", as(ParseTime), func(v int64) string { return Time(v).String() }, 36e9, 0},
		{"irradiance", as(ParseIrradiance), func(v int64) string { return Irradiance(v).String() }, 1e15, 0},
		{"speed", as(ParseSpeed), func(v int64) string { return Speed(v).String() }, 1e9, 0},
		{"share", as(ParseShare), func(v int64) string { return Share(v).String() }, 1e6, 0},
		{"angle", as(ParseAngle), func(v int64) string { return Angle(v).String() }, 360e3, -360e3},
		{"factor", as(ParseFactor), func(v int64) string { return Factor(v).String() }, 1e9, 0},
		{"force", as(ParseForce), func(v int64) string { return Force(v).String() }, 1e9, 0},
	}
}

func TestReadsEveryUnit(t *testing.T) {
	cases := []struct {
		kind, text string
		want       int64
	}{
		{"length", "120 mm", 120_000}, {"length", "120mm", 120_000}, {"length", " 120   mm ", 120_000},
		{"length", "4.7 in", 119_380}, {"length", "15 m", 15_000_000}, {"length", "12 ft", 3_657_600},
		{"length", "10 cm", 100_000}, {"length", "250 um", 250}, {"length", "250 µm", 250}, {"length", "250 μm", 250},
		{"length", "-6 mm", -6000}, {"length", "+6 mm", 6000}, {"length", ".050 in", 1270}, {"length", "007 mm", 7000},
		{"length", "0 mm", 0}, {"length", "-0.0 mm", 0}, {"length", "1000000 m", 1e12}, {"length", "1.0000000000000000000 mm", 1000},
		{"length", "0.0001 in", 3},   // 2.54
		{"length", "0.0005 mm", 1},   // a half goes away from zero
		{"length", "-0.0005 mm", -1}, // on either side
		{"length", "0.0014 mm", 1},
		{"length", "1432\u00a0mm", 1_432_000}, // no-break space, as spreadsheets put it
		{"area", "0.35 mm2", 350_000}, {"area", "0.35 mm²", 350_000},
		{"mass", "4 kg", 4_000_000}, {"mass", "2.5 g", 2500}, {"mass", "7 mg", 7}, {"mass", "1 lb", 453_592},
		{"linear mass", "5.2 g/m", 5200}, {"linear mass", "5.2 kg/km", 5200}, {"linear mass", "80 mg/m", 80},
		{"linear mass", "3.52 lb/1000 ft", 5238}, // 3.52 x 453592.37 / 304.8 = 5238.3
		{"linear mass", "3.52 lb/1000ft", 5238},
		{"time", "0.15 s", 150}, {"time", "180 s", 180_000}, {"time", "2 min", 120_000}, {"time", "8 h", 28_800_000}, {"time", "20 ms", 20},
		{"irradiance", "10 W/m2", 10_000_000}, {"irradiance", "1 mW/cm2", 10_000_000}, {"irradiance", "0.1 uW/cm2", 1000},
		{"force", "53.4 N", 53_400}, {"force", "12 lbf", 53_379}, {"force", "1.5lbf", 6672}, {"force", "2 kN", 2_000_000},
		{"speed", "1.2 m/s", 1_200_000}, {"speed", "300 mm/s", 300_000}, {"speed", "90 m/min", 1_500_000}, {"speed", "100 m/min", 1_666_667},
		{"share", "0.1 %", 1000}, {"share", "100 ppm", 100}, {"share", "100%", 1_000_000},
		{"angle", "0 deg", 0}, {"angle", "22.5 deg", 22_500}, {"angle", "-90 deg", -90_000}, {"angle", "90°", 90_000},
		{"factor", "0.9", 900}, {"factor", "1", 1000}, {"factor", "0.75", 750},
	}
	for _, c := range cases {
		t.Run(c.kind+" "+c.text, func(t *testing.T) {
			got, err := readerOf(t, c.kind).read(c.text)
			require.NoError(t, err)
			require.Equal(t, c.want, got)
		})
	}
}

func TestRefuses(t *testing.T) {
	cases := []struct{ kind, text, message, want string }{
		{"length", "", `"" is empty`, "write a number and a unit, such as 120 mm or 4.7 in; um, mm, cm, m, in, ft"},
		{"length", "  ", `"  " is empty`, "write a number and a unit"},
		{"length", "12 furlong", `"12 furlong" is no length`, "write a number and a unit, such as 120 mm"},
		{"length", "12", `"12" has no unit`, "write a number and a unit"},
		{"length", "mm", `"mm" is no length`, "such as 120 mm"},
		{"length", "1,5 mm", `"1,5 mm" holds a comma`, "write a decimal point"},
		{"length", "1,432.5 mm", `"1,432.5 mm" holds a comma`, "no mark between thousands"},
		{"length", "−6 mm", `"−6 mm" holds a typographic minus`, "plain hyphen"},
		{"length", "--6 mm", `"--6 mm" is no length`, ""}, {"length", "+-6 mm", `"+-6 mm" is no length`, ""},
		{"length", "- 6 mm", `"- 6 mm" is no length`, ""}, {"length", "NaN", `"NaN" is no length`, ""},
		{"length", "inf mm", `"inf mm" is no length`, ""}, {"length", "1e3 mm", `"1e3 mm" is no length`, ""},
		{"length", "5. mm", `"5. mm" is no length`, ""}, {"length", "1.2.3 mm", `"1.2.3 mm" is no length`, ""},
		{"length", ". mm", `". mm" is no length`, ""}, {"length", "0x10 mm", `"0x10 mm" is no length`, ""},
		{"length", "1_000 mm", `"1_000 mm" is no length`, ""}, {"length", "1 000 mm", `"1 000 mm" is no length`, ""},
		{"length", "12 MM", `"12 MM" is no length`, ""}, {"length", "٣ mm", `"٣ mm" is no length`, ""},
		{"length", "3 mm\x1b[2J", `"3 mm\x1b[2J" is no length`, ""},
		{"length", "1000.001 m m", `"1000.001 m m" is no length`, ""},
		{"length", "1000000.000001 m", `"1000000.000001 m" is too large`, "write at most 1000 km"},
		{"length", "99999999999999999999999 mm", `"99999999999999999999999 mm" is too large`, "write at most 1000 km"},
		{"length", "0.0000000000001 mm", `"0.0000000000001 mm" has too many digits`, "write at most 12 behind the point, 18 in all"},
		{"length", "1234567.123456789012 mm", `"1234567.123456789012 mm" has too many digits`, ""},
		{"length", "0.0004 mm", `"0.0004 mm" is too small`, "write 0, or a larger number"},
		{"length", strings.Repeat("x", 50), `"` + strings.Repeat("x", 40) + `"... is no length`, ""},
		{"area", "-0.35 mm2", `"-0.35 mm2" is negative`, "not below zero"},
		{"area", "22 AWG", `"22 AWG" is no cross-section`, "such as 0.34 mm2"},
		{"mass", "4 t", `"4 t" is no mass`, ""}, {"linear mass", "5 g", `"5 g" is no mass per length`, ""},
		{"time", "2 d", `"2 d" is no time`, ""}, {"time", "10000.001 h", `"10000.001 h" is too large`, "10000 h"},
		{"speed", "3 km/h", `"3 km/h" is no speed`, ""}, {"share", "101 %", `"101 %" is too large`, "100 %"},
		{"share", "0.001", `"0.001" has no unit`, "%"}, {"angle", "361 deg", `"361 deg" is too large`, ""},
		{"factor", "0.9 mm", `"0.9 mm" is no number`, "a plain number"}, {"factor", "-1", `"-1" is negative`, ""},
	}
	for _, c := range cases {
		t.Run(c.kind+" "+c.text, func(t *testing.T) {
			_, err := readerOf(t, c.kind).read(c.text)
			var fault *Error
			require.ErrorAs(t, err, &fault)
			require.Equal(t, c.message, fault.Error())
			require.Equal(t, c.text, fault.Text)
			require.NotEmpty(t, fault.Want)
			require.Contains(t, fault.Want, c.want)
		})
	}
}

func TestEveryValuePrintsAndReadsBack(t *testing.T) {
	for _, r := range readers() {
		t.Run(r.name, rapid.MakeCheck(func(t *rapid.T) {
			value := rapid.Int64Range(r.low, r.limit).Draw(t, "value")
			got, err := r.read(r.print(value))
			require.NoError(t, err)
			require.Equal(t, value, got)
		}))
	}
}

func TestLimitsAreTheLastValueRead(t *testing.T) {
	for _, r := range readers() {
		t.Run(r.name, func(t *testing.T) {
			got, err := r.read(r.print(r.limit))
			require.NoError(t, err)
			require.Equal(t, r.limit, got)
			_, err = r.read(r.print(r.limit + 1))
			require.Error(t, err)
			_, err = r.read(r.print(r.low - 1))
			require.Error(t, err)
			require.NotPanics(t, func() { _, _ = r.print(math.MinInt64), r.print(math.MaxInt64) })
		})
	}
}

func readerOf(t *testing.T, name string) reader {
	t.Helper()
	for _, r := range readers() {
		if r.name == name {
			return r
		}
	}
	require.Fail(t, "no reader for "+name)
	return reader{}
}

func FuzzParseLength(f *testing.F)     { fuzz(f, 0, "4.7 in", "-6mm", "250 µm", "1e3 mm") }
func FuzzParseArea(f *testing.F)       { fuzz(f, 1, "0.35 mm2", "0.35 mm²") }
func FuzzParseMass(f *testing.F)       { fuzz(f, 2, "4 kg", "1 lb") }
func FuzzParseLinearMass(f *testing.F) { fuzz(f, 3, "5.2 g/m", "3.52 lb/1000 ft") }
func FuzzParseTime(f *testing.F)       { fuzz(f, 4, "0.15 s", "8 h") }
func FuzzParseSpeed(f *testing.F)      { fuzz(f, 6, "1.2 m/s", "100 m/min") }
func FuzzParseShare(f *testing.F)      { fuzz(f, 7, "0.1 %", "100 ppm") }
func FuzzParseAngle(f *testing.F)      { fuzz(f, 8, "0 deg", "-90 deg") }
func FuzzParseForce(f *testing.F)      { fuzz(f, 10, "53.4 N", "12 lbf") }
func FuzzParseFactor(f *testing.F)     { fuzz(f, 9, "0.9", "1,5", "99999999999999999999999999") }

// fuzz holds that a text is refused with a sentence and a way out, or read as a value in range that prints and reads back.
func fuzz(f *testing.F, index int, seeds ...string) {
	r := readers()[index]
	for _, seed := range append(seeds, "", "-", ".", "0.0000000000009", "9999999999999.99999 m") {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		value, err := r.read(text)
		if err != nil {
			var fault *Error
			require.ErrorAs(t, err, &fault)
			require.NotEmpty(t, fault.Fault)
			require.NotEmpty(t, fault.Want)
			return
		}
		require.LessOrEqual(t, value, r.limit)
		require.GreaterOrEqual(t, value, r.low)
		again, err := r.read(r.print(value))
		require.NoError(t, err)
		require.Equal(t, value, again)
	})
}
