package handbook

// BendKind says what a bend radius is asked for.
type BendKind uint8

const (
	BendWire      BendKind = iota // a wire or a cable with several conductors
	BendPolyimide                 // the same with polyimide insulation
	BendCoax                      // flexible coax
)

// BendRules lists the documents that say how tightly a kind may be bent, the one that asks for the largest radius first.
func BendRules(kind BendKind) []string {
	var rules []string
	for _, row := range bendTable() {
		if row.kind == kind {
			rules = append(rules, row.rule)
		}
	}
	return rules
}

// BendRadius returns the smallest radius of a bend that stays, in diameters of the wire or cable, by the document that a shop goes by.
// The documents disagree on coax.
func BendRadius(rule string, kind BendKind) (times int, source Source, listed bool) {
	for _, row := range bendTable() {
		if row.rule == rule && row.kind == kind {
			return row.times, row.source, true
		}
	}
	return 0, source, false
}

type bendRow struct {
	rule   string
	kind   BendKind
	times  int
	source Source
}

// bendTable holds the long-term figures. The exception of the Army manual for terminal strips was not seen.
func bendTable() []bendRow {
	nasa := func(page string) Source {
		return Source{Document: "NASA Workmanship Standards", Edition: "2002-04-05", Table: page + ", after NASA-STD-8739.4", Standing: Read}
	}
	return []bendRow{
		{"TM 1-1500-204-23-4", BendWire, 10, Source{Document: "US Army TM 1-1500-204-23-4", Table: "item 27", Standing: Read}},
		{"NASA-STD-8739.4", BendWire, 10, nasa("4.03")},
		{"NASA-STD-8739.4", BendPolyimide, 15, nasa("4.03")},
		{"AS50881", BendCoax, 10, Source{Document: "SAE AS50881", Table: "coax", Standing: SecondHand}},
		{"ASTM F2639", BendCoax, 6, Source{Document: "ASTM F2639", Edition: "18", Table: "7.2.1.65", Standing: SecondHand}},
		{"NASA-STD-8739.4", BendCoax, 6, nasa("4.04")},
	}
}
