package units

import (
	"fmt"
	"math/bits"
	"strconv"
	"strings"
)

// Digits that a number may have. Every limit has at most 13; with 18 in all a number fits 64 bits.
const (
	mostWhole    = 13
	mostFraction = 12
	mostDigits   = 18
)

// Error says why a text is no quantity of the kind asked for.
type Error struct {
	Text  string // what was written
	Fault string // what is wrong with it: "is no length"
	Want  string // how to write it
}

// Error returns one lower-case sentence without full stop: `"12 furlong" is no length`.
func (e *Error) Error() string {
	const most = 40
	if runes := []rune(e.Text); len(runes) > most {
		return fmt.Sprintf("%q... %s", string(runes[:most]), e.Fault)
	}
	return fmt.Sprintf("%q %s", e.Text, e.Fault)
}

// number is a decimal number as written: digits / 10^fraction.
type number struct {
	negative bool
	digits   string // whole part and fraction, without leading zeros
	fraction int    // count of digits behind the point, without trailing zeros
}

// read returns the value of text in the small unit of its kind.
func (k kind) read(text string) (int64, error) {
	f := k.form()
	n, rest, fault := split(strings.TrimSpace(text))
	if fault != nil {
		return 0, f.refuse(text, fault)
	}
	one, found := f.unit(rest)
	switch {
	case !found && rest == "":
		return 0, f.refuse(text, &Error{Fault: "has no unit"})
	case !found:
		return 0, f.refuse(text, nil)
	case n.negative && !f.signed:
		return 0, f.refuse(text, &Error{Fault: "is negative", Want: "write a number that is not below zero"})
	}
	value, fault := n.times(one, f)
	if fault != nil {
		return 0, f.refuse(text, fault)
	}
	if n.negative {
		return -value, nil
	}
	return value, nil
}

// refuse completes a fault with the text and what the form knows.
func (f form) refuse(text string, fault *Error) error {
	if fault == nil {
		fault = &Error{}
	}
	fault.Text = text
	if fault.Fault == "" {
		fault.Fault = "is " + f.name
	}
	if fault.Want == "" {
		fault.Want = f.want
	}
	return fault
}

func (f form) unit(name string) (unit, bool) {
	for _, u := range f.units {
		if u.name == name {
			return u, true
		}
	}
	return unit{}, false
}

// split parts a text into its number and its unit.
func split(text string) (number, string, *Error) {
	switch {
	case text == "":
		return number{}, "", &Error{Fault: "is empty"}
	case strings.Contains(text, ","):
		return number{}, "", &Error{Fault: "holds a comma", Want: "write a decimal point and no mark between thousands, such as 1.5 or 1432"}
	case strings.ContainsAny(text, "−–"):
		return number{}, "", &Error{Fault: "holds a typographic minus", Want: "write a plain hyphen, such as -6 mm"}
	}
	var n number
	if text[0] == '-' || text[0] == '+' {
		n.negative = text[0] == '-'
		text = text[1:]
	}
	whole, rest := leadingDigits(text)
	fraction := ""
	if strings.HasPrefix(rest, ".") {
		fraction, rest = leadingDigits(rest[1:])
		if fraction == "" {
			return number{}, "", &Error{} // "5. mm"
		}
	}
	if whole+fraction == "" {
		return number{}, "", &Error{}
	}
	fraction = strings.TrimRight(fraction, "0")
	n.fraction = len(fraction)
	n.digits = strings.TrimLeft(whole+fraction, "0")
	return n, strings.TrimSpace(rest), nil
}

func leadingDigits(text string) (digits, rest string) {
	end := 0
	for end < len(text) && text[end] >= '0' && text[end] <= '9' {
		end++
	}
	return text[:end], text[end:]
}

// times returns the number in small units, rounded to nearest, halves away from zero.
func (n number) times(one unit, f form) (int64, *Error) {
	tooLarge := &Error{Fault: "is too large", Want: "write at most " + f.most}
	switch {
	case n.digits == "":
		return 0, nil
	case len(n.digits)-n.fraction > mostWhole:
		return 0, tooLarge
	case n.fraction > mostFraction || len(n.digits) > mostDigits:
		return 0, &Error{Fault: "has too many digits",
			Want: fmt.Sprintf("write at most %d behind the point, %d in all", mostFraction, mostDigits)}
	}
	digits, err := strconv.ParseUint(n.digits, 10, 64)
	if err != nil {
		return 0, &Error{}
	}
	divisor := one.den * powerOfTen(n.fraction)
	high, low := bits.Mul64(digits, one.num)
	low, carry := bits.Add64(low, divisor/2, 0)
	high += carry
	if high >= divisor {
		return 0, tooLarge
	}
	value, _ := bits.Div64(high, low, divisor)
	switch {
	case value > uint64(f.limit):
		return 0, tooLarge
	case value == 0:
		return 0, &Error{Fault: "is too small", Want: "write 0, or a larger number"}
	}
	return int64(value), nil
}

func powerOfTen(exponent int) uint64 {
	power := uint64(1)
	for range exponent {
		power *= 10
	}
	return power
}

// decimal prints value / 10^places without trailing zeros.
func decimal(value int64, places int) string {
	whole, fraction, both := strings.Cut(fixed(value, places), ".")
	if fraction = strings.TrimRight(fraction, "0"); !both || fraction == "" {
		return whole
	}
	return whole + "." + fraction
}

// fixed prints value / 10^places with every place.
func fixed(value int64, places int) string {
	sign, size := "", uint64(value)
	if value < 0 {
		sign, size = "-", -size
	}
	digits := strconv.FormatUint(size, 10)
	if short := places + 1 - len(digits); short > 0 {
		digits = strings.Repeat("0", short) + digits
	}
	if places == 0 {
		return sign + digits
	}
	return sign + digits[:len(digits)-places] + "." + digits[len(digits)-places:]
}
