package plan

import (
	"fmt"
	"iter"
	"slices"
	"unicode/utf8"

	"loomleaf/internal/harness"
	"loomleaf/internal/problem"
	"loomleaf/internal/units"
)

// markWay is the rung on which the marks of a wire came to stand.
type markWay uint8

const (
	wayUnmarked markWay = iota // too short to need a mark
	wayEnds                    // end marks, and middle marks where the wire asks for them
	wayCentred                 // the middle legend once, in the middle
	waySleeve                  // no legend of the ladder fits
)

// markFit is the outcome for one wire.
type markFit struct {
	way    markWay
	height units.Length
	texts  legends
	starts []units.Length // from finished end a
	span   markSpan       // with the widths of the texts
	double bool           // the texts stand in two lines
	long   bool           // no legend is short enough for the marker
}

// markRules holds what every wire of the job shares.
type markRules struct {
	marks   *harness.Marks
	pitch   units.Factor // character pitch to height
	longest int          // characters of one mark
	blind   [2]units.Length
	turned  bool // end b leaves the line first
}

// rulesOf returns what the marks of a job have in common.
func rulesOf(h *harness.Harness) markRules {
	return markRules{&h.Marks, h.Line.PitchToHeight, h.Line.LongestText, h.Line.Blind, h.Line.Leading == "b"}
}

// width returns the width of a text, rounded up: characters x pitch.
func (r markRules) width(text string, height units.Length) units.Length {
	return r.widthOf(utf8.RuneCountInString(text), height)
}

func (r markRules) widthOf(characters int, height units.Length) units.Length {
	thousandths := int64(characters) * int64(r.pitch) * int64(height)
	return units.Length((thousandths + 999) / 1000)
}

// spanFor returns the span of a piece cut to a length: between what is cut off its ends, with what is stripped, crimped or covered
// there, and what the marker cannot reach. Its texts and widths come later.
func (r markRules) spanFor(cut units.Length, off, covered [2]units.Length, middle bool) markSpan {
	blind := r.blind
	if r.turned {
		blind[0], blind[1] = blind[1], blind[0]
	}
	keep := func(end int) units.Length { return max(covered[end]+r.marks.Margin, blind[end]-off[end]) }
	return markSpan{
		length: cut - off[0] - off[1], keepA: keep(0), keepB: keep(1),
		first: r.marks.First, wanted: r.marks.Wanted, interval: r.marks.Interval, gap: r.marks.Gap, middle: middle,
	}
}

// with returns the span for texts at a height, in one line or in two.
func (r markRules) with(span markSpan, texts legends, height units.Length, double bool) markSpan {
	width := func(text string) units.Length {
		if !double {
			return r.width(text, height)
		}
		first, second := twoLines(text)
		return r.widthOf(max(utf8.RuneCountInString(first), utf8.RuneCountInString(second)), height)
	}
	span.widthA, span.widthB, span.widthM = width(texts.a), width(texts.b), width(texts.middle)
	span.common = texts.a == texts.b
	return span
}

// twoLines breaks a text at the blank that leaves the longer line shortest; a text without a blank stays whole.
func twoLines(text string) (first, second string) {
	best := utf8.RuneCountInString(text) + 1
	for at, r := range text {
		if r != ' ' {
			continue
		}
		if longer := max(utf8.RuneCountInString(text[:at]), utf8.RuneCountInString(text[at+1:])); longer < best {
			best, first, second = longer, text[:at], text[at+1:]
		}
	}
	if first == "" {
		return text, ""
	}
	return first, second
}

// suits reports whether every text of a set is short enough for the marker.
func (r markRules) suits(texts legends) bool {
	longest := max(utf8.RuneCountInString(texts.a), utf8.RuneCountInString(texts.b), utf8.RuneCountInString(texts.middle))
	return r.longest <= 0 || longest <= r.longest
}

// short reports whether a wire carries its middle legend alone.
func (r markRules) short(span markSpan) bool { return span.length < r.marks.CentredBelow }

// markSetting is one way to set the texts of a wire.
type markSetting struct {
	texts  legends
	height units.Length
	double bool
}

// settings goes over the ways to set the texts, best first: each legend at every height, then in two lines, then the next shorter one.
func (r markRules) settings(ladder []legends, how marking) iter.Seq[markSetting] {
	return func(yield func(markSetting) bool) {
		for _, texts := range ladder {
			if !r.suits(texts) {
				continue
			}
			for _, height := range how.heights {
				if !yield(markSetting{texts, height, false}) {
					return
				}
			}
			for _, height := range how.double {
				if !yield(markSetting{texts, height, true}) {
					return
				}
			}
		}
	}
}

// fit walks the ladder: end and middle marks at each height, in two lines, and then with each shorter legend; the legend centred; a
// sleeve. No heights stand for a type that is sleeved.
func (r markRules) fit(span markSpan, ladder []legends, how marking) markFit {
	if span.length < r.marks.UnmarkedBelow {
		return markFit{way: wayUnmarked, span: span}
	}
	ways := r.settings(ladder, how)
	if !r.short(span) {
		for w := range ways {
			sized := r.with(span, w.texts, w.height, w.double)
			if starts, fits := sized.place(); fits {
				return markFit{way: wayEnds, height: w.height, texts: w.texts, starts: starts, span: sized, double: w.double}
			}
		}
	}
	for w := range ways {
		sized := r.with(span, w.texts, w.height, w.double)
		if start, fits := sized.centred(); fits {
			return markFit{way: wayCentred, height: w.height, texts: w.texts, starts: []units.Length{start}, span: sized, double: w.double}
		}
	}
	return markFit{way: waySleeve, texts: ladder[0], span: span, long: len(how.heights) > 0 && !slices.ContainsFunc(ladder, r.suits)}
}

// rows returns the marks as the plan gives them: from the cut end a.
func (f markFit) rows(trimA units.Length, r markRules) []Mark {
	last := len(f.starts) - 1
	rows := make([]Mark, 0, len(f.starts))
	for i, start := range f.starts {
		row := Mark{Text: f.texts.middle, AtUM: int64(trimA + start), WidthUM: int64(f.span.widthM)}
		switch {
		case f.way != wayEnds:
		case last == 0: // one mark serves both ends
			row.Text, row.WidthUM = f.texts.a, int64(f.span.widthA)
		case i == 0:
			row.Text, row.WidthUM, row.End = f.texts.a, int64(f.span.widthA), "a"
		case i == last:
			row.Text, row.WidthUM, row.End = f.texts.b, int64(f.span.widthB), "b"
		}
		row.Turned = r.reads(row.End)
		if f.double {
			row.Lines = twoRows(row.Text)
		}
		rows = append(rows, row)
	}
	return rows
}

// twoRows returns a text in two lines; none where it stands in one.
func twoRows(text string) []string {
	if first, second := twoLines(text); second != "" {
		return []string{first, second}
	}
	return nil
}

// reads reports whether a text near an end, or between the ends, reads from end b to end a: from the end that leaves first, or from
// its own end where the shop wants that.
func (r markRules) reads(end string) bool {
	if r.marks.Reads == "from each end" && end != "" {
		return end == "b"
	}
	return r.turned
}

// warnings says where the marks of a wire are not what the job asks for.
func (f markFit) warnings(r markRules, w markSubject) problem.List {
	switch {
	case f.way == waySleeve && f.long:
		return problem.List{markWarning(w, "mark-long", fmt.Sprintf("%s %q gets sleeves: each of its legends is longer than the %s that the line marks",
			w.noun, w.id, counted(r.longest, "character")),
			"add a shorter legend to marks.shorter, or correct line.longest_text")}
	case f.way == waySleeve:
		return problem.List{markWarning(w, "mark-sleeve", fmt.Sprintf(
			"%s %q has no room for a mark on %s between keep-outs of %s at a and %s at b, it gets sleeves",
			w.noun, w.id, f.span.length, f.span.keepA, f.span.keepB), "shorten covered, marks.margin or the legends, or accept the sleeves")}
	case f.way == wayCentred && !r.short(f.span):
		return problem.List{markWarning(w, "mark-centred", fmt.Sprintf(
			"%s %q is marked once, in the middle: its end marks do not fit on %s between keep-outs of %s at a and %s at b",
			w.noun, w.id, f.span.length, f.span.keepA, f.span.keepB), "shorten covered, marks.margin or the legends, or accept the one mark")}
	case f.way != wayEnds:
		return nil
	}
	var warnings problem.List
	for _, end := range []struct {
		name string
		keep units.Length
	}{{"a", f.span.keepA}, {"b", f.span.keepB}} {
		if end.keep > r.marks.First {
			warnings = append(warnings, markWarning(w, "mark-window", fmt.Sprintf(
				"%s %q has no place for its mark within %s of end %s: the keep-out takes %s, and the mark stands right behind it",
				w.noun, w.id, r.marks.First, end.name, end.keep), "shorten strip or covered of this end or marks.margin, or accept the place"))
		}
	}
	return warnings
}

func markWarning(w markSubject, check, text, hint string) problem.Problem {
	return problem.Problem{Severity: problem.Warning, Check: check, Place: w.place, ID: w.id, Text: text, Hint: hint}
}
