package pdf

import (
	"fmt"
	"strings"
	"unicode/utf16"

	"loomleaf/internal/page"
)

// outline returns the outline dictionary as object number first and one object for each bookmark after it; a bookmark of
// level 1 hangs below the last of level 0. Every entry but the list of sheets is closed.
func outline(marks []page.Bookmark, pages []string, first int) []string {
	if len(marks) == 0 {
		return nil
	}
	texts := make([]string, len(marks)+1)
	top := siblings(marks, 0, len(marks), 0)
	texts[0] = fmt.Sprintf("/Type /Outlines\n/Count %d\n/First %d 0 R\n/Last %d 0 R\n", len(top), first+1+top[0], first+1+top[len(top)-1])
	for i, index := range top {
		end := len(marks)
		if i+1 < len(top) {
			end = top[i+1]
		}
		below := siblings(marks, index+1, end, 1)
		texts[index+1] = entry(marks[index], pages, first, first, neighbours(top, i))
		if len(below) > 0 {
			texts[index+1] += fmt.Sprintf("/First %d 0 R\n/Last %d 0 R\n/Count -%d\n", first+1+below[0], first+1+below[len(below)-1], len(below))
		}
		for j, child := range below {
			texts[child+1] = entry(marks[child], pages, first, first+1+index, neighbours(below, j))
		}
	}
	return texts
}

// siblings returns the bookmarks of one level from start up to end.
func siblings(marks []page.Bookmark, start, end, level int) []int {
	var found []int
	for i := start; i < end; i++ {
		if marks[i].Level == level {
			found = append(found, i)
		}
	}
	return found
}

// neighbours returns the entries before and after entry i of a row, -1 where there is none.
func neighbours(row []int, i int) [2]int {
	both := [2]int{-1, -1}
	if i > 0 {
		both[0] = row[i-1]
	}
	if i+1 < len(row) {
		both[1] = row[i+1]
	}
	return both
}

func entry(mark page.Bookmark, pages []string, first, parent int, beside [2]int) string {
	text := fmt.Sprintf("/Title %s\n/Parent %d 0 R\n/Dest [%s 0 R /Fit]\n", textString(mark.Title), parent, pages[mark.Page])
	for i, name := range []string{"Prev", "Next"} {
		if beside[i] >= 0 {
			text += fmt.Sprintf("/%s %d 0 R\n", name, first+1+beside[i])
		}
	}
	return text
}

// textString writes a text in UTF-16, high byte first, with its mark (ISO 32000-1, 7.9.2.2).
func textString(text string) string {
	var b strings.Builder
	b.WriteString("<FEFF")
	for _, unit := range utf16.Encode([]rune(text)) {
		fmt.Fprintf(&b, "%04X", unit)
	}
	return b.String() + ">"
}
