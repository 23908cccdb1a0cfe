package handbook

// ContactCount is how many contacts of a size an insert holds.
type ContactCount struct {
	Size  string // "22D", "20", "16", "12", "coax"
	Count int
}

// ContactsOf returns the contacts of an insert arrangement of MIL-DTL-38999 connectors, such as "25-61".
func ContactsOf(arrangement string) ([]ContactCount, Source, bool) {
	source := Source{Document: "MIL-DTL-38999", Table: "insert charts of a connector catalogue", Standing: SecondHand}
	for _, row := range arrangementTable() {
		if row.name == arrangement {
			return row.contacts, source, true
		}
	}
	return nil, source, false
}

type arrangementRow struct {
	name     string
	contacts []ContactCount
}

// arrangementTable returns inserts as a catalogue of MIL-DTL-38999 series I, II and III connectors charts them on pages 6 to
// 9 (second-hand).
func arrangementTable() []arrangementRow {
	return []arrangementRow{
		{"9-35", []ContactCount{{"22D", 6}}}, {"9-98", []ContactCount{{"20", 3}}}, {"11-2", []ContactCount{{"16", 2}}},
		{"11-5", []ContactCount{{"20", 5}}}, {"11-35", []ContactCount{{"22D", 13}}}, {"11-98", []ContactCount{{"20", 6}}},
		{"11-99", []ContactCount{{"20", 7}}}, {"13-4", []ContactCount{{"16", 4}}}, {"13-8", []ContactCount{{"20", 8}}},
		{"13-35", []ContactCount{{"22D", 22}}}, {"13-98", []ContactCount{{"20", 10}}}, {"15-5", []ContactCount{{"16", 5}}},
		{"15-15", []ContactCount{{"20", 14}, {"16", 1}}}, {"15-18", []ContactCount{{"20", 18}}},
		{"15-19", []ContactCount{{"20", 19}}}, {"15-35", []ContactCount{{"22D", 37}}},
		{"15-97", []ContactCount{{"20", 8}, {"16", 4}}}, {"17-6", []ContactCount{{"12", 6}}},
		{"17-8", []ContactCount{{"16", 8}}}, {"17-26", []ContactCount{{"20", 26}}}, {"17-35", []ContactCount{{"22D", 55}}},
		{"17-99", []ContactCount{{"20", 21}, {"16", 2}}}, {"19-11", []ContactCount{{"16", 11}}},
		{"19-28", []ContactCount{{"20", 26}, {"16", 2}}}, {"19-32", []ContactCount{{"20", 32}}},
		{"19-35", []ContactCount{{"22D", 66}}}, {"21-11", []ContactCount{{"12", 11}}}, {"21-16", []ContactCount{{"16", 16}}},
		{"21-35", []ContactCount{{"22D", 79}}}, {"21-39", []ContactCount{{"20", 37}, {"16", 2}}},
		{"21-41", []ContactCount{{"20", 41}}}, {"23-21", []ContactCount{{"16", 21}}}, {"23-35", []ContactCount{{"22D", 100}}},
		{"23-53", []ContactCount{{"20", 53}}}, {"23-55", []ContactCount{{"20", 55}}},
		{"25-4", []ContactCount{{"20", 48}, {"16", 8}}}, {"25-19", []ContactCount{{"12", 19}}},
		{"25-24", []ContactCount{{"16", 12}, {"12", 12}}}, {"25-29", []ContactCount{{"16", 29}}},
		{"25-35", []ContactCount{{"22D", 128}}}, {"25-37", []ContactCount{{"16", 37}}},
		{"25-43", []ContactCount{{"20", 23}, {"16", 20}}}, {"25-61", []ContactCount{{"20", 61}}},
		{"25-46", []ContactCount{{"20", 40}, {"16", 4}, {"coax", 2}}},
	}
}
