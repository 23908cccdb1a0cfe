package job

import "loomleaf/internal/problem"

// valueLimit keeps the trees of a file within the memory of a desk computer; a job of 100,000 wires has half as many.
const valueLimit = 2_000_000

// tableLimit bounds headers, each of which costs more than a value: an empty one may lack four keys.
const tableLimit = 300_000

// depthLimit is the deepest nesting of arrays, tables and dotted keys. A job needs four; beyond some thousands the
// library that judges the syntax takes time that grows with the square of the depth.
const depthLimit = 16

// nesting refuses a file that nests too deep or holds too much, in one pass and before any parser runs.
//
// It follows strings and comments exactly as long as the file is well formed; at the first place where it cannot, the
// parsers stop too.
func (f *file) nesting() problem.List {
	depth, dots, values, tables := 0, 0, 0, 0
	for at := 0; at < len(f.text); {
		switch f.text[at] {
		case '"', '\'':
			at = skipString(f.text, at)
			continue
		case '#':
			at = skipLine(f.text, at)
			continue
		case '[', '{':
			depth, dots = depth+1, 0
			if f.text[at] == '[' && (at == 0 || f.text[at-1] == '\n') {
				tables++
			}
		case ']', '}':
			depth, dots = max(0, depth-1), 0
		case '=', ',', '\n':
			dots = 0
		case '.':
			dots++
		}
		if b := f.text[at]; b == '=' || b == ',' || b == '[' {
			values++
		}
		if values > valueLimit || tables > tableLimit {
			return problem.List{about(fault(fileTooLarge, f.place(at), "the file holds more than %d values or %d tables", valueLimit, tableLimit),
				"", "split the job")}
		}
		if depth > depthLimit || dots >= depthLimit {
			return problem.List{about(fault(nestedTooDeep, f.place(at), "the nesting is deeper than %d", depthLimit),
				"", "no table of a job needs more than four")}
		}
		at++
	}
	return nil
}

// skipString returns the offset behind the string that starts at an offset.
func skipString(text []byte, at int) int {
	quote := text[at]
	if at+2 < len(text) && text[at+1] == quote && text[at+2] == quote {
		return skipLongString(text, at+3, quote)
	}
	for at++; at < len(text); at++ {
		switch {
		case text[at] == '\\' && quote == '"':
			at++
		case text[at] == '\n':
			return at
		case text[at] == quote:
			return at + 1
		}
	}
	return len(text)
}

// skipLongString returns the offset behind a string between three quotes; up to two more quotes may end its text.
func skipLongString(text []byte, at int, quote byte) int {
	for ; at < len(text); at++ {
		if text[at] == '\\' && quote == '"' {
			at++
			continue
		}
		run := 0
		for run < 5 && at+run < len(text) && text[at+run] == quote {
			run++
		}
		if run >= 3 {
			return at + run
		}
		at += max(0, run-1)
	}
	return len(text)
}

func skipLine(text []byte, at int) int {
	for at < len(text) && text[at] != '\n' {
		at++
	}
	return at
}
