package harness

import "loomleaf/internal/units"

// Safety is the [safety] table, echoed and never computed, and the wording of the safety page.
type Safety struct {
	Origin
	Officer, Emergency string   // blank where the shop gives none
	Deference          []string // lines that the shop adds to those of the wording
	Ozone, Mercury     bool     // the curing lamp makes ozone, holds mercury
	HighPotential      bool     // the shop tests at high potential
	Quotes             []Quote
	Measured           []Measurement
	MeasuredOzone      []OzoneMeasurement
	Wordings           []Wording // one a language, in the order of the pages
}

// Quote is a value that the shop copies from a document.
type Quote struct {
	Origin
	What          string // a blank of the wording: "laser class"
	Value, Source string
}

// Measurement is ultraviolet irradiance that somebody measured. It is for the worksheet alone and reaches no packet.
type Measurement struct {
	Origin
	What       string       // source and place: "curing lamp, at the operator"
	Nanometres units.Factor // thousandths of a nanometre
	Irradiance units.Irradiance
	By, At     string
	On         Date
}

// OzoneMeasurement is ozone in air that somebody measured. It is for the worksheet alone.
type OzoneMeasurement struct {
	Origin
	What   string
	PPM    units.Factor // thousandths
	By, At string
	On     Date
}

// Wording is the text of the safety page in one language.
type Wording struct {
	Language  string
	Title     string   // of the sheet
	Deference []string // who decides, in this order; can be added to, never left out
	Short     string   // the same in one line, for the foot of other sheets
	Heading   string   // above the blanks
	Ask       string   // under a blank that nobody has filled
	Given     string   // under a value that the shop file itself is the source of
	Copied    string   // who copied the quoted values and checked them, before a line to sign on
	Read      string   // above the ticks of the crew
	Name      string
	Signals   [4]string // words for DANGER, WARNING, CAUTION and NOTICE
	Signs     []SignTitle
	Blanks    []Blank
	Blocks    []SafetyBlock
}

// SignTitle is what a sign of ISO 7010 says, in the language of the page.
type SignTitle struct{ Number, Title string }

// Blank is a value that the qualified person gives, or that the shop quotes.
type Blank struct {
	What, Label string
	When        string
}

// SafetyBlock is one hazard of the safety page.
type SafetyBlock struct {
	When   string   // what the job must do for the block to be printed: see job.Whens
	Signal string   // "DANGER", "WARNING", "CAUTION" or "NOTICE"
	Signs  []string // numbers of ISO 7010
	Title  string
	Count  string // sentence with {wires}, {all} and {insulation}; "" for none
	Lines  []string
}
