package job

import (
	"errors"
	"strings"

	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// sign says which values a length may have.
type sign uint8

const (
	anySign sign = iota
	notNegative
	positive
)

// length returns the length of a key, or 0 where it is missing or wrong.
func (t *table) length(key string, allowed sign) units.Length {
	e := t.get(key)
	if e == nil {
		return 0
	}
	return t.lengthOf(key, e.value, e.place(), allowed)
}

func (t *table) lengthOf(key string, v *value, at problem.Place, allowed sign) units.Length {
	text, fine := t.quantityText(key, v, at, true)
	if !fine {
		return 0
	}
	length, fine := quantity(t, key, text, at, units.ParseLength)
	switch {
	case !fine:
		return 0
	case allowed == positive && length <= 0:
		t.fault(outOfRange, key, at, "write a length above zero", "%s is not above zero", quoted(text))
		return 0
	case allowed == notNegative && length < 0:
		t.fault(outOfRange, key, at, "write a length that is not below zero", "%s is below zero", quoted(text))
		return 0
	}
	return length
}

// lengths returns the lengths of a list, exactly so many unless count is 0.
func (t *table) lengths(key string, count int, allowed sign) []units.Length {
	items := t.filled(key)
	if count > 0 && len(items) > 0 && len(items) != count {
		t.fault(badQuantity, key, t.get(key).place(), "", "the list holds %d lengths instead of %d", len(items), count)
		return nil
	}
	var lengths []units.Length
	for _, item := range items {
		before := len(t.found)
		length := t.lengthOf(key, item, item.place(), allowed)
		if len(t.found) == before {
			lengths = append(lengths, length)
		}
	}
	if len(lengths) != len(items) {
		return nil
	}
	return lengths
}

// lengthRange returns the two lengths of a list, the smaller one first.
func (t *table) lengthRange(key string) (from, to units.Length) {
	both := t.lengths(key, 2, positive)
	if len(both) != 2 {
		return 0, 0
	}
	if both[0] > both[1] {
		t.fault(reversedRange, key, t.get(key).place(), "write the smaller one first", "the range runs from %s down to %s", both[0], both[1])
		return 0, 0
	}
	return both[0], both[1]
}

// areaRange returns the two cross-sections of a list, the smaller one first.
func (t *table) areaRange(key string) (from, to units.Area) {
	items := t.filled(key)
	if len(items) > 0 && len(items) != 2 {
		t.fault(badQuantity, key, t.get(key).place(), "", "the list holds %d cross-sections instead of 2", len(items))
		return 0, 0
	}
	var both []units.Area
	for _, item := range items {
		text, fine := t.quantityText(key, item, item.place(), false)
		if !fine {
			continue
		}
		area, fine := quantity(t, key, text, item.place(), units.ParseArea)
		switch {
		case !fine:
		case area <= 0:
			t.fault(outOfRange, key, item.place(), "write a figure above zero", "%s is not above zero", quoted(text))
		default:
			both = append(both, area)
		}
	}
	switch {
	case len(both) != 2:
		return 0, 0
	case both[0] > both[1]:
		t.fault(reversedRange, key, t.get(key).place(), "write the smaller one first", "the range runs from %s down to %s", both[0], both[1])
		return 0, 0
	}
	return both[0], both[1]
}

// measure returns a quantity other than a length, always a text with its unit, above zero where so stated.
func measure[Q ~int64](t *table, key string, parse func(string) (Q, error), allowed sign) Q {
	e := t.get(key)
	if e == nil {
		return 0
	}
	text, fine := t.quantityText(key, e.value, e.place(), false)
	if !fine {
		return 0
	}
	value, fine := quantity(t, key, text, e.place(), parse)
	if fine && allowed == positive && value <= 0 {
		t.fault(outOfRange, key, e.place(), "write a figure above zero", "%s is not above zero", quoted(text))
	}
	return value
}

// factor returns a plain number above zero.
func (t *table) factor(key string) units.Factor {
	e := t.get(key)
	if e == nil {
		return 0
	}
	if e.value.kind != kindInteger && e.value.kind != kindDecimal {
		t.fault(wrongKind, key, e.place(), "write a number without quotes, such as 0.9", "%s is no number", written(e.value))
		return 0
	}
	value, fine := quantity(t, key, plain(e.value.text), e.place(), units.ParseFactor)
	if fine && value <= 0 {
		t.fault(outOfRange, key, e.place(), "write a number above zero", "%s is not above zero", shown(e.value.text))
	}
	return value
}

// quantityText returns the text of a quantity; a bare number is a length in the job's unit.
func (t *table) quantityText(key string, v *value, at problem.Place, isLength bool) (string, bool) {
	number := v.kind == kindInteger || v.kind == kindDecimal
	switch {
	case v.kind == kindText:
		return v.text, t.notEmpty(key, v)
	case number && isLength && t.unit != "":
		return plain(v.text) + " " + t.unit, true
	case number && isLength:
		t.fault(bareNumber, key, at, `write a text with a unit, such as "`+shown(v.text)+` mm", or set length_unit in [job]`, "%s has no unit", shown(v.text))
	case number:
		t.fault(bareNumber, key, at, "write a text with a unit", "%s has no unit", shown(v.text))
	default:
		t.fault(wrongKind, key, at, `write a text with a unit, such as "120 mm"`, "%s is no quantity", written(v))
	}
	return "", false
}

// plain takes the marks between digits out of a number.
func plain(number string) string { return strings.ReplaceAll(number, "_", "") }

// quantity parses a text and reports what is wrong with it.
func quantity[Q ~int64](t *table, key, text string, at problem.Place, parse func(string) (Q, error)) (Q, bool) {
	value, err := parse(text)
	if err == nil {
		return value, true
	}
	var fault *units.Error
	hint := ""
	if errors.As(err, &fault) {
		hint = fault.Want
	}
	t.fault(badQuantity, key, at, hint, "%s", shown(err.Error()))
	return 0, false
}
