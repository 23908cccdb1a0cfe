package pdf

import (
	"strconv"

	"loomleaf/internal/page"
)

// operators is a piece of a content stream: operands in front of their operator, one operation a line.
type operators []byte

// op appends an operation with operands in points.
func (o *operators) op(operator string, operands ...page.Pt) {
	for _, p := range operands {
		*o = append(appendPoints(*o, p), ' ')
	}
	*o = append(append(*o, operator...), '\n')
}

// whole appends an operation with operands in hundredths of a point.
func (o *operators) whole(operator string, operands ...page.Pt) {
	for _, p := range operands {
		*o = append(strconv.AppendInt(*o, int64(p), 10), ' ')
	}
	*o = append(append(*o, operator...), '\n')
}

// pen appends line weight and dashes. Both are set for every line, so none inherits them.
func (o *operators) pen(weight page.Pt, dash []page.Pt) {
	o.op("w", weight)
	*o = append(*o, '[')
	for i, d := range dash {
		if i > 0 {
			*o = append(*o, ' ')
		}
		*o = appendPoints(*o, d)
	}
	*o = append(*o, "] 0 d\n"...)
}

// appendPoints appends a distance in points with as many of its two decimals as it needs.
func appendPoints(b []byte, p page.Pt) []byte {
	if p < 0 {
		b, p = append(b, '-'), -p
	}
	b = strconv.AppendInt(b, int64(p/page.Point), 10)
	rest := p % page.Point
	if rest == 0 {
		return b
	}
	b = append(b, '.', byte('0'+rest/10))
	if rest%10 != 0 {
		b = append(b, byte('0'+rest%10))
	}
	return b
}
