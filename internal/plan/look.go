package plan

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Verdict says what a read or typed text turned out to be.
type Verdict string

const (
	VerdictFound        Verdict = "found"
	VerdictSuperseded   Verdict = "superseded"
	VerdictWrongCheck   Verdict = "wrong check digits"
	VerdictUnknown      Verdict = "unknown"
	VerdictNotACode     Verdict = "not a code"
	VerdictScannerRight Verdict = "scanner test right"
	VerdictScannerWrong Verdict = "scanner test wrong"
)

// Answer is what the codes maps say of a read or typed text.
type Answer struct {
	Verdict Verdict
	Row     CodeRow // the thing, where Verdict is found or superseded
	Layout  string  // keyboard layout that garbled the scan: "French AZERTY"; "" where none did
	Text    string  // sentences for a person
}

// Look says what a text is by the map in force and the maps of older revisions. It takes the whole string of a symbol, also
// one garbled by a keyboard layout, or the short form typed by hand: "P483920-57/2".
func Look(text string, now, older []CodeRow) Answer {
	plain := strings.ToUpper(strings.Join(strings.Fields(text), ""))
	if short, ok := parseKeyIn(plain); ok {
		return short.look(now, older)
	}
	plain, layout := undoLayout(plain)
	answer := lookWhole(plain, now, older)
	if layout != "" {
		answer.Layout = layout
		answer.Text += fmt.Sprintf(" It came through a %s keyboard layout: set the scanner to that layout and run the scanner test.", layout)
	}
	return answer
}

// lookWhole looks up the whole string of a symbol.
func lookWhole(text string, now, older []CodeRow) Answer {
	switch {
	case text == ScanTest:
		return Answer{Verdict: VerdictScannerRight, Text: "The scanner test was read right."}
	case len(text) == codeLength && text[0] == KindScanTest && digitsOnly(text[1:]):
		return Answer{Verdict: VerdictScannerWrong, Text: fmt.Sprintf("The scanner test was read wrong: %s in place of %s.", text, ScanTest)}
	}
	if _, err := ParseCode(text); err != nil {
		verdict := VerdictNotACode
		if len(text) == codeLength && digitsOnly(text[1:]) && strings.Contains(kindLetters, text[:1]) {
			verdict = VerdictWrongCheck
		}
		return Answer{Verdict: verdict, Text: fmt.Sprintf("%q is not a valid code: %v.", text, err)}
	}
	same := func(row CodeRow) bool { return row.Code == text }
	if answer, found := lookBy(same, now, older); found {
		return answer
	}
	return Answer{Verdict: VerdictUnknown, Text: text + " is a valid code, but no map at hand lists it: it belongs to another job or to a revision whose map is missing."}
}

// lookBy finds the line that matches, first in the map in force, then in the older ones.
func lookBy(same func(CodeRow) bool, now, older []CodeRow) (Answer, bool) {
	if i := slices.IndexFunc(now, same); i >= 0 {
		row := now[i]
		if row.Kind == kindWord(KindScanTest) {
			return Answer{Verdict: VerdictScannerRight, Text: "The scanner test was typed right."}, true
		}
		return Answer{Verdict: VerdictFound, Row: row, Text: fmt.Sprintf("Valid now: %s (job %s, revision %s).", row.Words, row.Job, row.Revision)}, true
	}
	i := slices.IndexFunc(older, same)
	if i < 0 {
		return Answer{}, false
	}
	return Answer{Verdict: VerdictSuperseded, Row: older[i], Text: supersededText(same, older[i], now, older)}, true
}

// supersededText names the thing, the revisions that had it, and what became of it.
func supersededText(same func(CodeRow) bool, row CodeRow, now, older []CodeRow) string {
	var revisions []string
	for _, r := range older {
		if same(r) && !slices.Contains(revisions, r.Revision) {
			revisions = append(revisions, r.Revision)
		}
	}
	text := fmt.Sprintf("Superseded: %s of job %s is from revision %s.", row.Words, row.Job, strings.Join(revisions, " and "))
	successor := slices.IndexFunc(now, func(r CodeRow) bool {
		return r.Job == row.Job && r.Kind == row.Kind && r.Name == row.Name && r.Unit == row.Unit
	})
	sameJob := slices.IndexFunc(now, func(r CodeRow) bool { return r.Job == row.Job })
	switch {
	case successor >= 0:
		return text + fmt.Sprintf(" Revision %s has it changed: %s.", now[successor].Revision, now[successor].Words)
	case sameJob >= 0:
		return text + fmt.Sprintf(" Revision %s does not have it.", now[sameJob].Revision)
	}
	return text
}

// keyIn is the short form of a code.
type keyIn struct {
	kind  byte
	item  int
	check string
	unit  int
}

// parseKeyIn reads the short form: letter, six digits, dash, two check digits, and a stroke with the unit where it has one.
func parseKeyIn(text string) (keyIn, bool) {
	body, unit, hasUnit := strings.Cut(text, "/")
	if len(body) != 10 || !strings.Contains(kindLetters, body[:1]) || body[7] != '-' || !digitsOnly(body[1:7]) || !digitsOnly(body[8:]) {
		return keyIn{}, false
	}
	short := keyIn{kind: body[0], check: body[8:]}
	short.item, _ = strconv.Atoi(body[1:7]) // six digits, as tested above
	if hasUnit {
		if unit == "" || len(unit) > 3 || !digitsOnly(unit) {
			return keyIn{}, false
		}
		short.unit, _ = strconv.Atoi(unit)
	}
	return short, true
}

// is reports whether a line of a map has the kind, item and unit of the short form, and whether its check digits agree.
func (k keyIn) is(row CodeRow) (thing, whole bool) {
	code, err := ParseCode(row.Code)
	if err != nil || code.Kind != k.kind || code.Item != k.item || code.Unit != k.unit {
		return false, false
	}
	return true, strings.HasSuffix(row.Code, k.check)
}

// look looks up the short form.
func (k keyIn) look(now, older []CodeRow) Answer {
	whole := func(row CodeRow) bool { _, whole := k.is(row); return whole }
	if answer, found := lookBy(whole, now, older); found {
		return answer
	}
	typed := fmt.Sprintf("%c%06d-%s", k.kind, k.item, k.check)
	thing := func(row CodeRow) bool { thing, _ := k.is(row); return thing }
	if i := slices.IndexFunc(now, thing); i >= 0 {
		return Answer{Verdict: VerdictWrongCheck, Text: fmt.Sprintf(
			"The check digits %s do not fit %s: mistyped, or paper of a revision whose map is missing.", k.check, now[i].Words)}
	}
	other := func(row CodeRow) bool {
		code, err := ParseCode(row.Code)
		return err == nil && code.Kind == k.kind && code.Item == k.item
	}
	if i := slices.IndexFunc(now, other); i >= 0 {
		return Answer{Verdict: VerdictUnknown, Text: fmt.Sprintf(
			"%s is %s of the map, but not for this unit: type the unit after a stroke as printed under the symbol.", typed, now[i].Name)}
	}
	return Answer{Verdict: VerdictUnknown, Text: "No map at hand lists " + typed + ": it was mistyped or belongs to another job."}
}

// layout is a keyboard layout of a computer, and what arrives for the digits 0 to 9 from a scanner set to the US layout.
type layout struct{ name, digits string }

// layouts holds the layouts that change digits. Source: symbol tables of the X keyboard data, release 2.35.1 (fr, be, cz, sk, hu).
var layouts = []layout{
	{"French AZERTY", `à&é"'(-è_ç`},
	{"Belgian AZERTY", `à&é"'(§è!ç`},
	{"Czech", `é+ěščřžýáí`},
	{"Slovak", `é+ľščťžýáí`},
	{"Hungarian", `ö123456789`},
}

// undoLayout turns a scan that came through one of the layouts back into a whole code, and names every layout that could have
// garbled it. Any other text is returned as it is.
func undoLayout(text string) (plain, names string) {
	if text == "" || !strings.Contains(kindLetters, text[:1]) || digitsOnly(text[1:]) {
		return text, ""
	}
	var fitting []string
	for _, l := range layouts {
		if digits, ok := l.undo(text[1:]); ok && len(digits) == codeLength-1 {
			plain = text[:1] + digits
			fitting = append(fitting, l.name)
		}
	}
	if fitting == nil {
		return text, ""
	}
	return plain, strings.Join(fitting, " or ")
}

// undo maps the characters of a layout back to digits.
func (l layout) undo(text string) (string, bool) {
	arrive := []rune(l.digits)
	var digits strings.Builder
	for _, r := range strings.ToLower(text) {
		digit := slices.Index(arrive, r)
		if digit < 0 {
			return "", false
		}
		digits.WriteByte('0' + byte(digit))
	}
	return digits.String(), true
}
