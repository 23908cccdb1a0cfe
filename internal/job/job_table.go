package job

import (
	"strconv"

	"loomleaf/internal/harness"
	"loomleaf/internal/units"
)

// mostUnits is the most harnesses of one job: a code has three digits for the unit.
const mostUnits = 999

// mostExpected bounds the counts that a job may expect.
const mostExpected = 1_000_000

func readJob(h *harness.Harness, t *table) {
	t.require("number", "title", "part", "revision", "issued")
	j := &h.Job
	j.Number = t.fileName("number")
	j.Title = t.text("title")
	j.Part = t.part("part")
	j.Revision = t.fileName("revision")
	j.Supersedes = t.text("supersedes")
	j.Issued = t.day("issued")
	j.Due = t.day("due")
	j.Units, j.Serials = readUnits(t)
	j.Class, _ = t.whole("class", 1, 3)
	readLengthUnit(t)
	j.LengthIs = readLengthIs(t)
	j.Tolerance = readTolerance(t.inner("tolerance"))
	for _, d := range t.list("documents") {
		d.require("kind", "number")
		j.Documents = append(j.Documents, harness.Document{Kind: d.text("kind"), Number: d.text("number"), Revision: d.text("revision")})
		d.done()
	}
	j.Expect = readExpect(t)
	t.text("wires") // the table itself is read beside the job
	j.Retired = t.ids("retired", t.array("retired"))
	j.Origin = t.done()
}

// readUnits returns the serials, or the numbers of so many units.
func readUnits(t *table) (names []string, serials bool) {
	if !t.either("serials", "quantity", `write serials = ["0041", "0042"] or quantity = 2`) {
		return nil, t.has("serials")
	}
	if t.has("serials") {
		return readSerials(t), true
	}
	v := t.scalar("quantity", kindInteger, "whole number", "write a whole number without quotes")
	if v == nil {
		return nil, false
	}
	if many, err := strconv.Atoi(plain(v.text)); err == nil && tooMany(t, "quantity", many) {
		return nil, false
	}
	count, _ := t.between("quantity", v, 1, mostUnits)
	for unit := range count {
		names = append(names, strconv.Itoa(unit+1))
	}
	return names, false
}

func readSerials(t *table) []string {
	var serials []string
	seen := map[string]bool{}
	items := t.filled("serials")
	if tooMany(t, "serials", len(items)) {
		return nil
	}
	for at, serial := range t.texts("serials", items) {
		place := t.origin.Of(elementKey("serials", at))
		switch {
		case !t.fineSerial("serials", serial, place):
		case seen[serial]:
			t.fault(doubledElement, "serials", place, "give each harness its own", "%s stands twice in the list", quoted(serial))
		default:
			seen[serial] = true
			serials = append(serials, serial)
		}
	}
	return serials
}

func tooMany(t *table, key string, count int) bool {
	if count <= mostUnits {
		return false
	}
	t.fault(tooManyUnits, key, t.origin.Of(key), "split the job", "%d units are more than %d", count, mostUnits)
	return true
}

// readLengthUnit sets the unit of bare lengths for all tables read after this one.
func readLengthUnit(t *table) {
	unit := t.text("length_unit")
	if unit == "" {
		return
	}
	if _, err := units.ParseLength("1 " + unit); err != nil {
		t.fault(badWord, "length_unit", t.origin.Of("length_unit"), `write "mm", "cm", "m", "in" or "ft"`, "%s is no unit of length", quoted(unit))
		return
	}
	t.unit = unit
}

func readLengthIs(t *table) harness.LengthIs {
	switch t.word("length_is", "cut", "finished") {
	case "cut":
		return harness.LengthCut
	case "finished":
		return harness.LengthFinished
	default:
		return harness.LengthUnstated
	}
}

// readTolerance reads by how much finished lengths may be off; nil where the job leaves that to the published table.
func readTolerance(t *table) *harness.Tolerance {
	if t == nil {
		return nil
	}
	t.require("longer", "shorter")
	tolerance := harness.Tolerance{Longer: t.length("longer", notNegative), Shorter: t.length("shorter", notNegative)}
	t.done()
	return &tolerance
}

func readExpect(t *table) harness.Expect {
	expect := harness.Expect{Wires: -1, Ends: -1}
	counts := t.inner("expect")
	if counts == nil {
		return expect
	}
	if wires, fine := counts.whole("wires", 0, mostExpected); fine {
		expect.Wires = wires
	}
	if ends, fine := counts.whole("ends", 0, mostExpected); fine {
		expect.Ends = ends
	}
	counts.done()
	return expect
}
