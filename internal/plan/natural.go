package plan

import (
	"cmp"
	"strings"
)

// naturalCompare orders texts as people count: runs of digits by their value, all else by its bytes ("W9" before "W10").
// Texts of equal value ("W1", "W01") are ordered by their bytes, so that only equal texts compare equal.
func naturalCompare(a, b string) int {
	restA, restB := a, b
	for restA != "" && restB != "" {
		runA, runB := digitRun(restA), digitRun(restB)
		if runA > 0 && runB > 0 {
			if order := compareDigits(restA[:runA], restB[:runB]); order != 0 {
				return order
			}
			restA, restB = restA[runA:], restB[runB:]
			continue
		}
		if restA[0] != restB[0] {
			return cmp.Compare(restA[0], restB[0])
		}
		restA, restB = restA[1:], restB[1:]
	}
	return cmp.Or(cmp.Compare(len(restA), len(restB)), strings.Compare(a, b))
}

// digitRun returns how many digits the text starts with.
func digitRun(text string) int {
	run := 0
	for run < len(text) && text[run] >= '0' && text[run] <= '9' {
		run++
	}
	return run
}

// compareDigits compares two runs of digits of any length by their value.
func compareDigits(a, b string) int {
	a, b = strings.TrimLeft(a, "0"), strings.TrimLeft(b, "0")
	return cmp.Or(cmp.Compare(len(a), len(b)), strings.Compare(a, b))
}
