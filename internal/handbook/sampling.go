package handbook

import "slices"

// SamplePlan is a single sampling plan for normal inspection.
type SamplePlan struct {
	Letter         string // code letter of the lot and level
	Used           string // code letter of the plan in force, after the arrows
	Sample         int
	Accept, Reject int
	All            bool // the sample reaches the lot: every piece is inspected
	Source         Source
}

// InspectionLevels lists the levels from the fewest pieces to the most.
func InspectionLevels() []string { return []string{"S-1", "S-2", "S-3", "S-4", "I", "II", "III"} }

// AcceptanceLimits lists the acceptance quality limits (AQL) of which the plans are at hand.
func AcceptanceLimits() []string { return []string{"0.65", "1.0", "2.5"} }

func samplingSource(table string) Source {
	return Source{Document: "MIL-STD-105E", Edition: "10 May 1989", Table: table, Standing: SecondHand}
}

// CodeLetter returns the letter of a lot at a level. A lot of one piece has none.
func CodeLetter(lot int, level string) (string, Source, bool) {
	source := samplingSource("table I")
	column := slices.Index(InspectionLevels(), level)
	if lot < 2 || column < 0 {
		return "", source, false
	}
	for _, row := range letterTable() {
		if row.most == 0 || lot <= row.most {
			return row.letters[column : column+1], source, true
		}
	}
	return "", source, false
}

// SamplePlanOf returns the plan of a lot, level and AQL, arrows followed.
func SamplePlanOf(lot int, level, aql string) (SamplePlan, bool) {
	letter, _, listed := CodeLetter(lot, level)
	plan, planned := PlanOfLetter(letter, aql)
	if !listed || !planned {
		return SamplePlan{}, false
	}
	if plan.Sample >= lot { // foot of table II-A
		plan.All, plan.Sample, plan.Accept, plan.Reject = true, lot, 0, 1
	}
	return plan, true
}

// PlanOfLetter returns the plan of a code letter and AQL, arrows followed.
func PlanOfLetter(letter, aql string) (SamplePlan, bool) {
	column := slices.Index(AcceptanceLimits(), aql)
	rows := planTable()
	at := slices.IndexFunc(rows, func(r planRow) bool { return r.letter == letter })
	if column < 0 || at < 0 {
		return SamplePlan{}, false
	}
	for rows[at].accept[column] < 0 {
		if rows[at].accept[column] == arrowUp {
			at--
		} else {
			at++
		}
	}
	row := rows[at]
	accept := row.accept[column]
	return SamplePlan{Letter: letter, Used: row.letter, Sample: row.sample, Accept: accept, Reject: accept + 1,
		Source: samplingSource("tables I and II-A")}, true
}

// Arrows of the table: take the plan below, or the one above.
const (
	arrowDown = -1
	arrowUp   = -2
)

// planRow is a row of table II-A: acceptance numbers at AQL 0.65, 1.0 and 2.5, the reject number is one more.
type planRow struct {
	letter string
	sample int
	accept [3]int
}

// planTable returns table II-A of MIL-STD-105E for three AQL, letters A to Q (second-hand: from the reject numbers of a
// government contracting template, and two copies of the table; which way an arrow points is derived from them).
func planTable() []planRow {
	const down, up = arrowDown, arrowUp
	return []planRow{
		{"A", 2, [3]int{down, down, down}}, {"B", 3, [3]int{down, down, down}}, {"C", 5, [3]int{down, down, 0}},
		{"D", 8, [3]int{down, down, up}}, {"E", 13, [3]int{down, 0, down}}, {"F", 20, [3]int{0, up, 1}},
		{"G", 32, [3]int{up, down, 2}}, {"H", 50, [3]int{down, 1, 3}}, {"J", 80, [3]int{1, 2, 5}},
		{"K", 125, [3]int{2, 3, 7}}, {"L", 200, [3]int{3, 5, 10}}, {"M", 315, [3]int{5, 7, 14}},
		{"N", 500, [3]int{7, 10, 21}}, {"P", 800, [3]int{10, 14, up}}, {"Q", 1250, [3]int{14, 21, up}},
	}
}

// letterRow is a row of table I: the largest lot, 0 for the last row, and the letters by level.
type letterRow struct {
	most    int
	letters string
}

// letterTable returns table I of MIL-STD-105E (second-hand: a public copy).
func letterTable() []letterRow {
	return []letterRow{
		{8, "AAAAAAB"}, {15, "AAAAABC"}, {25, "AABBBCD"}, {50, "ABBCCDE"}, {90, "BBCCCEF"}, {150, "BBCDDFG"},
		{280, "BCDEEGH"}, {500, "BCDEFHJ"}, {1200, "CCEFGJK"}, {3200, "CDEGHKL"}, {10_000, "CDFGJLM"},
		{35_000, "CDFHKMN"}, {150_000, "DEGJLNP"}, {500_000, "DEGJMPQ"}, {0, "DEHKNQR"},
	}
}
