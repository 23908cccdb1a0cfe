package handbook

import (
	"cmp"
	"strconv"
	"strings"

	"loomleaf/internal/units"
)

// WireSize is the solid conductor that a gauge stands for. A stranded conductor of the gauge is thicker over all.
type WireSize struct {
	Gauge    string // "22"; large ones "1/0" to "4/0"
	Diameter units.Length
	Area     units.Area
	Source   Source
}

// The ends of the gauge scale as numbers: 4/0 counts as -3.
const (
	thickestGauge = -3
	thinnestGauge = 40
)

// WireSizeOf returns the wire of a gauge: "4/0" to "1/0", or "0000" to "0", then "1" to "40", odd and even.
func WireSizeOf(awg string) (WireSize, bool) {
	number, listed := gaugeNumber(awg)
	if !listed {
		return WireSize{}, false
	}
	row := gaugeTable()[number-thickestGauge]
	return WireSize{Gauge: gaugeName(number), Diameter: row.diameter, Area: row.area, Source: Source{
		Document: "ASTM B258", Table: "diameter formula", Standing: Derived}}, true
}

// CompareGauge is negative when gauge a is thinner than b, zero when they are the same size, positive when it is thicker.
// It reports false where either is no gauge.
func CompareGauge(a, b string) (int, bool) {
	first, listed := gaugeNumber(a)
	second, both := gaugeNumber(b)
	if !listed || !both {
		return 0, false
	}
	return cmp.Compare(second, first), true // the thinner wire has the larger number
}

// Takes reports whether a barrel for gauges from the thickest to the thinnest takes a conductor of a gauge or, where that is
// empty, of a section: a section fits where the gauge nearest to it does.
func Takes(awg string, section units.Area, thickest, thinnest string) bool {
	if awg != "" {
		thick, _ := CompareGauge(awg, thickest)
		thin, _ := CompareGauge(awg, thinnest)
		return thick <= 0 && thin >= 0
	}
	most, _ := WireSizeOf(thickest)
	least, _ := WireSizeOf(thinnest)
	return halfGauge(section, most.Area) && halfGauge(least.Area, section)
}

// TakesTogether reports whether a barrel takes wires of so much section together: the sections are added, and the sum counts
// as the size that matches it, else as the next larger one (NASA-STD-8739.4 change 6, 19.11; read). Hence it may not exceed
// the thickest gauge; below the thinnest it may stay by half a gauge.
func TakesTogether(sum units.Area, thickest, thinnest string) bool {
	most, _ := WireSizeOf(thickest)
	least, _ := WireSizeOf(thinnest)
	return sum <= most.Area && halfGauge(least.Area, sum)
}

// halfGauge reports whether one section is at most half a gauge larger than another. Sections of neighbouring gauges
// differ by 92^(2/39) = 1.261 (ASTM B258, definition of the scale; derived); half of that step is the factor 1.123.
func halfGauge(larger, than units.Area) bool { return larger*1000 <= than*1123 }

// gaugeNumber returns the place of a gauge on the scale, 4/0 as -3 and 1/0 as 0.
func gaugeNumber(awg string) (int, bool) {
	if zeros := len(awg); zeros >= 1 && zeros <= 4 && strings.Trim(awg, "0") == "" {
		return 1 - zeros, true
	}
	if zeros, large := strings.CutSuffix(awg, "/0"); large {
		if len(zeros) != 1 || zeros < "1" || zeros > "4" {
			return 0, false
		}
		return 1 - int(zeros[0]-'0'), true
	}
	number, err := strconv.Atoi(awg)
	if err != nil || strconv.Itoa(number) != awg || number < 1 || number > thinnestGauge {
		return 0, false
	}
	return number, true
}

func gaugeName(number int) string {
	if number < 1 {
		return strconv.Itoa(1-number) + "/0"
	}
	return strconv.Itoa(number)
}

// gaugeRow is a solid conductor in whole micrometres and square micrometres.
type gaugeRow struct {
	diameter units.Length
	area     units.Area
}

// gaugeTable returns the sizes from 4/0 down to 40. They follow from d = 0.005 in x 92^((36-n)/39), n = -3 for 4/0, the
// definition of the scale in ASTM B258 (formula read in copies, not in the standard; figures derived).
func gaugeTable() [thinnestGauge - thickestGauge + 1]gaugeRow {
	return [...]gaugeRow{
		{11684, 107219303}, {10405, 85028773}, {9266, 67430882}, {8251, 53475121}, {7348, 42407699},
		{6544, 33630834}, {5827, 26670464}, {5189, 21150639}, {4621, 16773220}, {4115, 13301768},
		{3665, 10548782}, {3264, 8365564}, {2906, 6634194}, {2588, 5261155}, {2305, 4172286},
		{2053, 3308773}, {1828, 2623976}, {1628, 2080908}, {1450, 1650235}, {1291, 1308696},
		{1150, 1037843}, {1024, 823047}, {912, 652706}, {812, 517619}, {723, 410491},
		{644, 325534}, {573, 258160}, {511, 204730}, {455, 162359}, {405, 128756},
		{361, 102108}, {321, 80976}, {286, 64217}, {255, 50926}, {227, 40386},
		{202, 32028}, {180, 25399}, {160, 20142}, {143, 15974}, {127, 12668},
		{113, 10046}, {101, 7967}, {90, 6318}, {80, 5010},
	}
}
