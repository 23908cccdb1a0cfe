package plan

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"strconv"
)

// Kinds of code. The letters arrive unchanged through every common keyboard layout.
const (
	KindWire      = 'C'
	KindLanding   = 'P' // a cavity where a wire lands
	KindTray      = 'T'
	KindPage      = 'H'
	KindConnector = 'K'
	KindTag       = 'G' // a reject tag
	KindScanTest  = 'X'
)

// ScanTest is the string of the scanner test: it holds every digit.
const ScanTest = "X0123456789012345678919"

const (
	contentRange = 100_000_000_000 // 11 digits
	itemRange    = 900_000
	itemFloor    = 100_000
)

// Code is the string of one symbol, by field.
type Code struct {
	Kind    byte
	Content uint64 // 11 digits: what the thing's row or label says
	Unit    int    // position of the unit in the job from 1; 0 for all units
	Item    int    // 6 digits: the thing's name
	Name    string // the thing: "W101", "J1:1", "J1/0041", "cutlist/J1/1"; not in the string
	Words   string // what the codes map says of it: "wire W101, 1432 mm, J1:1 to P2:7"; not in the string
}

// CodeRow is one line of the codes map.
type CodeRow struct {
	Code     string // 23 characters
	Job      string
	Revision string
	Unit     string // serial or number of the unit; "" for all units
	Kind     string // "wire", "landing", "tray", "page", "connector", "scanner test"
	Name     string
	Words    string
}

// String returns the 23 characters of the symbol: kind, content, unit, item, check digits.
func (c Code) String() string {
	if c.Kind == 0 {
		return ""
	}
	body := append(make([]byte, 0, codeLength), c.Kind)
	body = appendPadded(body, c.Content, 11)
	body = appendPadded(body, uint64(c.Unit), 3)
	body = appendPadded(body, uint64(c.Item), 6)
	return string(appendPadded(body, uint64(checkDigits(string(body))), 2))
}

// appendPadded appends a number with so many digits at least.
func appendPadded(text []byte, number uint64, digits int) []byte {
	for limit := uint64(10); digits > 1; digits-- {
		if number < limit {
			text = append(text, '0')
		}
		limit *= 10
	}
	return strconv.AppendUint(text, number, 10)
}

// KeyIn returns the short form typed when the symbol cannot be read: "P483920-57/2".
func (c Code) KeyIn() string {
	whole := c.String()
	short := fmt.Sprintf("%c%06d-%s", c.Kind, c.Item, whole[len(whole)-2:])
	if c.Unit == 0 {
		return short
	}
	return short + "/" + strconv.Itoa(c.Unit)
}

// MarshalText writes the string form.
func (c Code) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// ContentOf returns the content digits of a record: the first 8 bytes of its SHA-256, big-endian, mod 10^11.
func ContentOf[Text ~string | ~[]byte](record Text) uint64 {
	sum := sha256.Sum256([]byte(record))
	return binary.BigEndian.Uint64(sum[:8]) % contentRange
}

// checkDigits returns the two check digits of ISO/IEC 7064 MOD 97-10, letters counting 10 to 35.
func checkDigits(body string) int {
	rest := remainder97(body)
	return 98 - rest*100%97
}

// remainder97 returns the number that the characters spell, mod 97; -1 where a character is neither digit nor capital.
func remainder97(text string) int {
	rest := 0
	for i := range len(text) {
		switch b := text[i]; {
		case b >= '0' && b <= '9':
			rest = (rest*10 + int(b-'0')) % 97
		case b >= 'A' && b <= 'Z':
			rest = (rest*100 + int(b-'A') + 10) % 97
		default:
			return -1
		}
	}
	return rest
}
