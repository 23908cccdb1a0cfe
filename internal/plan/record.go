package plan

import (
	"slices"
	"strconv"
)

// record joins fields so that no two lists of fields give the same text: each stands behind its length.
func record(fields ...string) string {
	size := 0
	for _, field := range fields {
		size += len(field) + 6
	}
	text := make([]byte, 0, size)
	for _, field := range fields {
		text = strconv.AppendInt(text, int64(len(field)), 10)
		text = append(append(append(text, ':'), field...), ',')
	}
	return string(text)
}

// recordOf is the record of a thing of a job. It holds the job and part numbers, and nothing of the revision.
func recordOf(packet Packet, fields ...string) string {
	return record(append([]string{packet.Number, packet.Part}, fields...)...)
}

// list joins a list into one field.
func list(values []string) string { return record(values...) }

// figure writes a whole number as a field.
func figure(value int64) string { return strconv.FormatInt(value, 10) }

// recorder puts a long record together, piece by piece.
type recorder []byte

// text adds fields.
func (r recorder) text(fields ...string) recorder {
	for _, field := range fields {
		r = strconv.AppendInt(r, int64(len(field)), 10)
		r = append(append(append(r, ':'), field...), ',')
	}
	return r
}

// figure adds a whole number as a field.
func (r recorder) figure(value int64) recorder {
	start := len(r)
	return recorder(strconv.AppendInt(r, value, 10)).closed(start)
}

// named adds a record of a name and a value as a field, where there is a value.
func (r recorder) named(name, value string) recorder {
	if value == "" {
		return r
	}
	start := len(r)
	return r.text(name, value).closed(start)
}

// closed makes one field of what was added from start on.
func (r recorder) closed(start int) recorder {
	var digits [20]byte
	length := append(strconv.AppendInt(digits[:0], int64(len(r)-start), 10), ':')
	return append(slices.Insert(r, start, length...), ',')
}
