package handbook

import (
	"slices"
	"strings"
	"unicode"
)

// SignShape is the shape of a sign: its meaning without colour.
type SignShape string

const (
	WarningSign   SignShape = "warning"   // triangle
	MandatorySign SignShape = "mandatory" // disc
	ProhibitSign  SignShape = "prohibition"
	RescueSign    SignShape = "rescue" // square
)

// Sign is a registered sign by its number.
type Sign struct {
	Number string // "W004"
	Title  string
	Shape  SignShape
	Source Source
}

// SignOf returns a sign of ISO 7010 by its number, and whether it is listed here. The artwork is the standard's: sheets print
// number and title beside plain shapes of our own.
func SignOf(number string) (Sign, bool) {
	for _, row := range signTitles() {
		if row[0] == number {
			shape := map[byte]SignShape{'W': WarningSign, 'M': MandatorySign, 'P': ProhibitSign, 'E': RescueSign}[number[0]]
			return Sign{number, row[1], shape, Source{Document: "ISO 7010", Table: "register of titles", Standing: SecondHand}}, true
		}
	}
	return Sign{}, false
}

// signTitles are numbers and titles of ISO 7010 (second-hand: an open library that takes them from the published list).
func signTitles() [][2]string {
	return [][2]string{
		{"W001", "General warning sign"}, {"W003", "Radioactive material or ionizing radiation"}, {"W004", "Laser beam"},
		{"W005", "Non-ionizing radiation"}, {"W012", "Electricity"}, {"W016", "Toxic material"}, {"W017", "Hot surface"},
		{"W018", "Automatic start-up"}, {"W021", "Flammable material"}, {"W022", "Sharp element"}, {"W024", "Crushing of hands"},
		{"W025", "Counterrotating rollers"}, {"W027", "Optical radiation"}, {"W071", "Health-hazard substance or mixture"},
		{"W088", "Moving blades"}, {"W089", "Moving gears"},
		{"M001", "General mandatory action sign"}, {"M002", "Refer to instruction manual/booklet"}, {"M004", "Wear eye protection"},
		{"M007", "Opaque eye protection must be worn"}, {"M009", "Wear protective gloves"}, {"M010", "Wear protective clothing"},
		{"M011", "Wash your hands"}, {"M013", "Wear a face shield"}, {"M016", "Wear a mask"}, {"M017", "Wear respiratory protection"},
		{"M021", "Disconnect before carrying out maintenance or repair"}, {"M027", "Check guard"}, {"M028", "Keep locked"},
		{"P001", "General prohibition sign"}, {"P010", "Do not touch"}, {"P015", "No reaching in"},
		{"P031", "Do not alter the state of the switch"}, {"P075", "Do not stare at light source"},
		{"P080", "No access for unauthorized persons"},
		{"E003", "First aid"}, {"E004", "Emergency telephone"}, {"E011", "Eyewash station"},
	}
}

// Fluoropolymer reports whether an insulation is or holds a fluoropolymer, by the usual short names in any case and among
// other words: "XL-ETFE", "ptfe over polyimide". Heat on these can release harmful fume (NIOSHTIC 20041321, read). The list of
// names is common practice.
func Fluoropolymer(insulation string) bool {
	words := strings.FieldsFunc(strings.ToUpper(insulation), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	return slices.ContainsFunc(words, func(word string) bool {
		return slices.Contains([]string{"PTFE", "EPTFE", "TFE", "ETFE", "XETFE", "XLETFE", "FEP", "PFA", "MFA", "ECTFE", "PVDF",
			"FLUOROPOLYMER", "FLUOROPLASTIC", "FLUOROCARBON"}, word)
	})
}
