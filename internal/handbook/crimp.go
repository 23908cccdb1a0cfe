package handbook

import "loomleaf/internal/units"

// InsulationGap returns how far the insulation may stand off the mouth of a crimped barrel, by the gauge of the wire.
func InsulationGap(awg string) (least, most units.Length, source Source, listed bool) {
	source = Source{Document: "NASA-STD-8739.4", Edition: "change 6 of 2011-03-29", Table: "paragraph 10.1 b", Standing: Read}
	thicker, known := CompareGauge(awg, "18")
	thinner, _ := CompareGauge(awg, "20")
	switch {
	case !known:
		return 0, 0, source, false
	case thicker >= 0:
		return 250, 1250, source, true
	case thinner <= 0:
		return 250, 750, source, true
	}
	return 0, 0, source, false // 19 AWG: the text leaves it out
}

// NickLimit is how many strands of a wire may be nicked and how many broken.
type NickLimit struct {
	Strands        int // that the limit was written for
	Nicked, Broken int
	Source         Source
}

// NickedStrands returns the limit for copper wire by its gauge.
func NickedStrands(awg string) (NickLimit, bool) {
	size, known := WireSizeOf(awg)
	if !known {
		return NickLimit{}, false
	}
	number, _ := gaugeNumber(size.Gauge)
	limit := NickLimit{Source: Source{Document: "AC 43.13-1B", Edition: "CHG 1 of 2001-09-27", Table: "table 11-13", Standing: Read}}
	switch {
	case number >= 14 && number <= 24 && number%2 == 0:
		limit.Strands, limit.Nicked = 19, 2
	case number == 12 || number == 10:
		limit.Strands, limit.Nicked = 37, 4
	case number == 8 || number == 6 || number == 4:
		limit.Strands, limit.Nicked, limit.Broken = 133, 6, 6
	case number <= 2:
		limit.Nicked, limit.Broken = 6, 6
	default:
		return NickLimit{}, false
	}
	return limit, true
}

// StrandLimit is how many strands may be damaged, by the number of strands.
type StrandLimit struct {
	From, To int // strands; To is 0 for the last row
	Damaged  int // strands, or per cent of them in the last row
	PerCent  bool
}

// DamagedStrands returns the limits of a workmanship class, 1 to 3. Those of class 3 are for strands without tin.
func DamagedStrands(class int) ([]StrandLimit, Source, bool) {
	source := Source{Document: "IPC/WHMA-A-620B", Edition: "draft for review, February 2012", Table: "strand damage", Standing: SecondHand}
	if class < 1 || class > 3 {
		return nil, source, false
	}
	limits := []StrandLimit{{2, 6, 0, false}, {7, 15, 1, false}, {16, 25, 3, false}, {26, 40, 4, false}, {41, 60, 5, false},
		{61, 120, 6, false}, {121, 0, 6, true}}
	if class == 3 {
		for i, damaged := range [...]int{0, 0, 0, 3, 4, 5, 5} {
			limits[i].Damaged = damaged
		}
	}
	return limits, source, true
}

// LengthTolerance returns how much longer than nominal a finished wire or cable may be; shorter it may never be.
func LengthTolerance(length units.Length) (longer units.Length, source Source) {
	source = Source{Document: "IPC/WHMA-A-620B", Edition: "draft for review, February 2012", Table: "table 11-1", Standing: SecondHand}
	switch {
	case length <= 300*units.Millimetre:
		return 25 * units.Millimetre, source
	case length <= 1500*units.Millimetre:
		return 50 * units.Millimetre, source
	case length <= 3*units.Metre:
		return 100 * units.Millimetre, source
	case length <= 7500*units.Millimetre:
		return 150 * units.Millimetre, source
	}
	return length / 20, source
}
