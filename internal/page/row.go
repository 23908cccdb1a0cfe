package page

// Row marks what belongs together on a page and is never parted: a row of a list. It prints nothing and is no part of the dump; it is
// by the marks that the breaks of pages can be proved.
type Row struct {
	List   string // what it is a row of, within the section; a list may go on on the next page
	Number int    // in its list, from 1; parts of a row that may stand apart have the same
	Y, H   Pt     // upper edge and height
	Ticks  int    // boxes to tick in it
}

// moved leaves a row, which is as wide as its page, where it is.
func (r Row) moved(Pt) Item { return r }

// Parted parts what is printed from the marks of its rows.
func Parted(items []Item) (printed []Item, rows []Row) {
	for _, item := range items {
		if row, is := item.(Row); is {
			rows = append(rows, row)
			continue
		}
		printed = append(printed, item)
	}
	return printed, rows
}
