package handbook

// SpareCavities returns how many cavities of a connector good practice leaves unwired, by its number of contacts: two up to
// 25, four up to 100, six above. The text draws no line for very small connectors; a connector with no contacts needs none.
func SpareCavities(contacts int) (int, Source) {
	source := Source{Document: "AC 43.13-1B", Edition: "CHG 1 of 2001-09-27", Table: "paragraph 11-234", Standing: Read}
	switch {
	case contacts < 1:
		return 0, source
	case contacts <= 25:
		return 2, source
	case contacts <= 100:
		return 4, source
	default:
		return 6, source
	}
}
