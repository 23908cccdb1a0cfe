package plan

import (
	"crypto/sha256"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loomleaf/internal/words"
)

// codeLength is the number of characters of a whole code: a letter and 22 digits.
const codeLength = 23

// mostUnits is the highest position of a unit that the three digits of a code hold.
const mostUnits = 999

// kindLetters are the letters that a code can start with.
const kindLetters = "CPTHKRXG"

// PageIdentity is a page as its code knows it.
type PageIdentity struct {
	Name  string // sheet, section and number: "cutlist/J1/1"
	Unit  int    // position of the unit from 1; 0 for a page of all units
	Hash  string // content hash of its body, without anything of the revision
	Words string // "cut list J1, page 1"
}

// PageCodes returns the codes of pages, in their order. Each name may stand once for each unit.
func PageCodes(packet Packet, pages []PageIdentity) []Code {
	names := make([]string, len(pages))
	for i, page := range pages {
		names[i] = page.Name
	}
	item := items(names)
	codes := make([]Code, len(pages))
	for i, page := range pages {
		codes[i] = Code{
			Kind: KindPage, Unit: page.Unit, Item: item[page.Name], Name: page.Name, Words: page.Words,
			Content: ContentOf(recordOf(packet, "page", page.Name, unitName(packet, page.Unit), page.Hash)),
		}
	}
	return codes
}

// ParseCode reads the string of a symbol; blanks around it and small letters are forgiven. The name and words of the thing are
// not in the string. The error says in plain words what is wrong.
func ParseCode(text string) (Code, error) {
	text = strings.ToUpper(strings.TrimSpace(text))
	switch {
	case text == "":
		return Code{}, errors.New("nothing was read")
	case !strings.Contains(kindLetters, text[:1]):
		return Code{}, fmt.Errorf("a code starts with one of the letters %s", kindLetters)
	case !digitsOnly(text[1:]):
		return Code{}, errors.New("a code holds digits only after its letter")
	case len(text) != codeLength:
		return Code{}, fmt.Errorf("a code has %d characters, this has %d", codeLength, len(text))
	case remainder97(text) != 1:
		return Code{}, errors.New("the check digits do not fit: a character was misread or mistyped")
	}
	content, _ := strconv.ParseUint(text[1:12], 10, 64) // eleven digits, as tested above
	unit, _ := strconv.Atoi(text[12:15])
	item, _ := strconv.Atoi(text[15:21])
	code := Code{Kind: text[0], Content: content, Unit: unit, Item: item}
	if code.String() != text { // check digits 00, 01 and 98 stand for 97, 98 and 01
		return Code{}, errors.New("the check digits do not fit: a character was misread or mistyped")
	}
	return code, nil
}

// digitsOnly reports whether a text holds nothing but digits.
func digitsOnly(text string) bool {
	return strings.Trim(text, "0123456789") == ""
}

// UnmarshalText reads the string form; an empty text is no code.
func (c *Code) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*c = Code{}
		return nil
	}
	code, err := ParseCode(string(text))
	if err != nil {
		return fmt.Errorf("code %q: %w", text, err)
	}
	*c = code
	return nil
}

// items numbers the names of one kind of thing: 100000 and the first 8 bytes of the name's SHA-256, big-endian, mod 900000. A
// number that is taken goes to the next free one, names in byte order.
func items(names []string) map[string]int {
	sorted := slices.Clone(names)
	slices.Sort(sorted)
	taken := make(map[int]bool, len(sorted))
	numbers := make(map[string]int, len(sorted))
	for _, name := range slices.Compact(sorted) {
		sum := sha256.Sum256([]byte(name))
		number := int(binary.BigEndian.Uint64(sum[:8]) % itemRange)
		for taken[number] {
			number = (number + 1) % itemRange
		}
		taken[number] = true
		numbers[name] = itemFloor + number
	}
	return numbers
}

// unitName returns the serial or number of a unit by its position; "" for all units.
func unitName(packet Packet, position int) string {
	if position < 1 || position > len(packet.Units) {
		return ""
	}
	return packet.Units[position-1]
}

// codeTrays gives every tray its code. The record is what its label says.
func codeTrays(packet Packet, trays []Tray, groups []ownWires) {
	names := make([]string, len(trays))
	for i := range trays {
		names[i] = trays[i].ID
	}
	cable := map[string]bool{}
	for _, group := range groups {
		for _, w := range group.wires {
			if w.isCable() {
				cable[w.ID] = true
			}
		}
	}
	item := items(names)
	for i := range trays {
		tray := &trays[i]
		tray.Code = Code{
			Kind: KindTray, Unit: slices.Index(packet.Units, tray.Unit) + 1, Item: item[tray.ID], Name: tray.ID,
			Content: ContentOf(recordOf(packet, "tray", tray.ID, tray.Group, tray.Unit, list(tray.Wires), list(tray.Coil), tray.Next,
				figure(tray.CoilUM), figure(int64(tray.Ties)), figure(int64(tray.Part)), figure(int64(tray.Of)))),
			Words: fmt.Sprintf("tray %s, %s", tray.ID, contentsOf(len(tray.Wires), countIn(tray.Wires, cable))),
		}
	}
}

// countIn counts the ids that are in a set.
func countIn(ids []string, set map[string]bool) int {
	count := 0
	for _, id := range ids {
		count += one(set[id])
	}
	return count
}

// contentsOf counts the wires and cables among rows: "13 wires", "12 wires and 1 cable".
func contentsOf(rows, cables int) string {
	switch wires := rows - cables; {
	case cables == 0:
		return counted(wires, "wire")
	case wires == 0:
		return counted(cables, "cable")
	default:
		return counted(wires, "wire") + " and " + counted(cables, "cable")
	}
}

// counted writes a number with its noun: "1 wire", "13 wires".
func counted(count int, noun string) string {
	if count == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", count, noun)
}

// codeLandings gives every connector, every cavity and every joint that wires land in a code for each unit.
func codeLandings(packet Packet, connectors []Connector, joints []Joint) {
	var names, landings []string
	for i := range connectors {
		names = append(names, connectors[i].ID)
		for _, cavity := range connectors[i].Cavities {
			landings = append(landings, landingName(connectors[i].ID, cavity.Name))
		}
	}
	for i := range joints {
		if joints[i].Kind != jointStud {
			landings = append(landings, joints[i].ID)
		}
	}
	item, landingItem := items(names), items(landings)
	for i := range connectors {
		connector := &connectors[i]
		connector.Codes = nil
		for u, unit := range packet.Units {
			connector.Codes = append(connector.Codes, Code{
				Kind: KindConnector, Unit: u + 1, Item: item[connector.ID], Name: connector.ID,
				Content: ContentOf(connectorRecord(packet, *connector, unit)),
				Words:   fmt.Sprintf("connector %s of unit %s", connector.ID, unit),
			})
		}
		for c := range connector.Cavities {
			cavity := &connector.Cavities[c]
			cavity.Codes = landingCodes(packet, connector, *cavity, landingItem[landingName(connector.ID, cavity.Name)])
		}
	}
	for i := range joints {
		if joints[i].Kind != jointStud {
			joints[i].Codes = jointCodes(packet, joints[i], landingItem[joints[i].ID])
		}
	}
}

// landingName names a cavity in the job: "J1:1".
func landingName(connector, cavity string) string { return connector + ":" + cavity }

// connectorRecord is what the head of a pin checklist says of a connector.
func connectorRecord(packet Packet, c Connector, unit string) string {
	var after []string
	for _, step := range c.After {
		after = append(after, record(step.Step, step.Value))
	}
	return recordOf(packet, "connector", c.ID, unit, c.Part, c.Title, c.Gender, c.Key, c.Node, c.Seal, list(c.SlideOnFirst), list(after))
}

// landingCodes returns the codes of a cavity, one a unit. The record is what its row of the pin checklist says.
func landingCodes(packet Packet, connector *Connector, cavity Cavity, item int) []Code {
	name := landingName(connector.ID, cavity.Name)
	codes := make([]Code, len(packet.Units))
	var r recorder
	for u, unit := range packet.Units {
		r = r[:0].text(packet.Number, packet.Part, "landing", connector.ID, cavity.Name, unit, cavity.Contact, list(cavity.Wires),
			string(cavity.Fill), cavity.Words).lines(cavity.Lines, u+1)
		codes[u] = Code{
			Kind: KindLanding, Unit: u + 1, Item: item, Name: name,
			Content: ContentOf(r),
			Words:   fmt.Sprintf("%s of unit %s, %s", name, unit, cavityWords(connector, cavity)) + insteadOf(cavity.Lines, u+1),
		}
	}
	return codes
}

// cavityWords says what goes into a cavity: "wire W101", "wires W110 and W111", "sealing plug, size 22".
func cavityWords(connector *Connector, cavity Cavity) string {
	switch {
	case len(cavity.Wires) > 0:
		return wireWords(cavity.Wires)
	case cavity.Fill == FillContactAndSeal:
		return "contact " + cavity.Contact + " and " + connector.Seal
	case cavity.Fill == FillSeal && connector.Seal != "":
		return connector.Seal
	case cavity.Fill == FillOpen:
		return "leave open"
	}
	return string(cavity.Fill)
}

// wireWords names wires: "wire W101", "wires W110 and W111".
func wireWords(wires []string) string {
	if len(wires) == 1 {
		return "wire " + wires[0]
	}
	return "wires " + enumerated(wires)
}

// enumeratedIn joins ids in a language: "W1", "W1 and W2", "W1, W2 and W3".
func enumeratedIn(spoken words.Words, ids []string) string {
	last := len(ids) - 1
	if last < 1 {
		return strings.Join(ids, "")
	}
	return spoken.Say("common.and", "first", strings.Join(ids[:last], ", "), "last", ids[last])
}

// enumerated joins ids: "W1", "W1 and W2", "W1, W2 and W3".
func enumerated(ids []string) string {
	last := len(ids) - 1
	if last < 1 {
		return strings.Join(ids, "")
	}
	return strings.Join(ids[:last], ", ") + " and " + ids[last]
}
