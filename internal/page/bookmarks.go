package page

// Bookmark is an entry of the outline of a document.
type Bookmark struct {
	Title string
	Page  int // index of the page it leads to
	Level int // 0 for a kind of sheet, 1 for a section of it
}

// Bookmarks returns the outline of a document: every run of pages with one title, and below it every section that has a
// name. Pages without a title have no entry.
func (d Document) Bookmarks() []Bookmark {
	var marks []Bookmark
	title, section := "", ""
	for i, p := range d.Pages {
		if p.Title == "" {
			continue
		}
		if p.Title != title {
			marks = append(marks, Bookmark{Title: p.Title, Page: i})
			title, section = p.Title, ""
		}
		if p.Section != section && p.Section != "" {
			marks = append(marks, Bookmark{Title: p.Section, Page: i, Level: 1})
		}
		section = p.Section
	}
	return marks
}
