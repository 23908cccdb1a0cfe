package page

import "slices"

// Moved returns items further to the right; those given stay where they are.
func Moved(items []Item, by Pt) []Item {
	all := make([]Item, len(items))
	for i, item := range items {
		all[i] = item.moved(by)
	}
	return all
}

func (t Text) moved(by Pt) Item {
	t.X += by
	return t
}

func (r Rule) moved(by Pt) Item {
	r.X1, r.X2 = r.X1+by, r.X2+by
	return r
}

func (b Box) moved(by Pt) Item {
	b.X += by
	return b
}

func (d Disc) moved(by Pt) Item {
	d.X += by
	return d
}

func (s Symbol) moved(by Pt) Item {
	s.X += by
	return s
}

func (p Path) moved(by Pt) Item {
	p.Points = slices.Clone(p.Points)
	for i := range p.Points {
		p.Points[i][0] += by
	}
	return p
}
