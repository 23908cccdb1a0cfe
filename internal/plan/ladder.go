package plan

import (
	"fmt"
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
}

// markRules holds what every wire of the job shares.
type markRules struct {
	marks *harness.Marks
	pitch units.Factor // character pitch to height
}

// width returns the width of a text, rounded up: characters x pitch.
func (r markRules) width(text string, height units.Length) units.Length {
	thousandths := int64(utf8.RuneCountInString(text)) * int64(r.pitch) * int64(height)
	return units.Length((thousandths + 999) / 1000)
}

// spanFor returns the span of a finished length with what is stripped, crimped or covered at its ends. Its texts and widths come
// later.
func (r markRules) spanFor(length, coveredA, coveredB units.Length, middle bool) markSpan {
	return markSpan{
		length: length, keepA: coveredA + r.marks.Margin, keepB: coveredB + r.marks.Margin,
		first: r.marks.First, wanted: r.marks.Wanted, interval: r.marks.Interval, gap: r.marks.Gap, middle: middle,
	}
}

// with returns the span for texts at a height.
func (r markRules) with(span markSpan, texts legends, height units.Length) markSpan {
	span.widthA, span.widthB = r.width(texts.a, height), r.width(texts.b, height)
	span.widthM = r.width(texts.middle, height)
	span.common = texts.a == texts.b
	return span
}

// short reports whether a wire carries its middle legend alone.
func (r markRules) short(span markSpan) bool { return span.length < r.marks.CentredBelow }

// fit walks the ladder: end and middle marks at each height and then with each shorter legend, the legend centred, a
// sleeve. Heights stand largest first; none stand for a type that is sleeved.
func (r markRules) fit(span markSpan, ladder []legends, heights []units.Length) markFit {
	if span.length < r.marks.UnmarkedBelow {
		return markFit{way: wayUnmarked, span: span}
	}
	if !r.short(span) {
		for _, texts := range ladder {
			for _, height := range heights {
				sized := r.with(span, texts, height)
				if starts, fits := sized.place(); fits {
					return markFit{wayEnds, height, texts, starts, sized}
				}
			}
		}
	}
	for _, texts := range ladder {
		for _, height := range heights {
			sized := r.with(span, texts, height)
			if start, fits := sized.centred(); fits {
				return markFit{wayCentred, height, texts, []units.Length{start}, sized}
			}
		}
	}
	return markFit{way: waySleeve, texts: ladder[0], span: span}
}

// rows returns the marks as the plan gives them: from the cut end a.
func (f markFit) rows(trimA units.Length) []Mark {
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
		rows = append(rows, row)
	}
	return rows
}

// warnings says where the marks of a wire are not what the job asks for.
func (f markFit) warnings(r markRules, w markSubject) problem.List {
	switch {
	case f.way == waySleeve:
		return problem.List{markWarning(w, "mark-sleeve", fmt.Sprintf(
			"%s %s has no room for a mark on %s between keep-outs of %s at a and %s at b, it gets sleeves",
			w.noun, w.id, f.span.length, f.span.keepA, f.span.keepB))}
	case f.way == wayCentred && !r.short(f.span):
		return problem.List{markWarning(w, "mark-centred", fmt.Sprintf(
			"%s %s is marked once, in the middle: its end marks do not fit on %s between keep-outs of %s at a and %s at b",
			w.noun, w.id, f.span.length, f.span.keepA, f.span.keepB))}
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
				"%s %s has no place for its mark within %s of end %s: the keep-out takes %s, and the mark stands right behind it",
				w.noun, w.id, r.marks.First, end.name, end.keep)))
		}
	}
	return warnings
}

func markWarning(w markSubject, check, text string) problem.Problem {
	return problem.Problem{Severity: problem.Warning, Check: check, Place: w.place, ID: w.id, Text: text,
		Hint: "look at strip, covered and the margin of its ends, and at the legends"}
}
