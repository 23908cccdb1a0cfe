package sheet

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"loomleaf/internal/page"
	"loomleaf/internal/plan"
	"loomleaf/internal/problem"
)

func facePage(t require.TestingT, c pinCase, key string, m composer) ([]page.Item, problem.List) {
	p := sledPlan([]pinCase{c}, "0041")
	p.Connectors[0].Key = key
	var problems problem.List
	return pinSections(p, m, &problems)[0].pages[0], problems
}

// circles returns the circles of the cavities: all discs but the outline and those of the legend.
func circles(items []page.Item) []page.Disc {
	var all []page.Disc
	for _, item := range items {
		if disc, ok := item.(page.Disc); ok && disc.R != legendRadius && disc.Weight != groupRule*3/2 {
			all = append(all, disc)
		}
	}
	return all
}

func TestCirclesOfAFaceDoNotTouch(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		c := drawPinCase(t)
		c.note = ""
		items, _ := facePage(t, c, "up", m)
		found := circles(items)
		for i, a := range found {
			for _, b := range found[:i] {
				dx, dy := int64(a.X-b.X), int64(a.Y-b.Y)
				require.Greater(t, squareRoot(dx*dx+dy*dy), int64(a.R+b.R+a.Weight/2+b.Weight/2))
			}
		}
	})
}

func TestFaceTellsCavitiesApartByShape(t *testing.T) {
	m := loadFonts(t)
	c := pinCase{id: "P3", names: numbered(9), face: rowFace(numbered(9), 5, 4), fills: "wso2cwwww", trays: []string{"P3"}}
	items, problems := facePage(t, c, "", m)
	require.Empty(t, problems)
	heavy, dashed := 0, 0
	for _, disc := range circles(items) {
		if disc.Dash != nil {
			dashed++
		} else if disc.Weight == faceRing {
			heavy++
		}
	}
	require.Equal(t, 6, heavy, "wired and shared")
	require.Equal(t, 2, dashed, "sealed, with and without a contact")
	said := wording(items)
	for _, words := range []string{"WIRE SIDE: you look at the back", "wire goes here", "sealing plug", "no ring: stays open"} {
		require.Contains(t, said, words)
	}
	sizes := labelSizes(items, "7")
	require.NotEmpty(t, sizes)
	require.GreaterOrEqual(t, slices.Min(sizes), 7*page.Point)
}

func labelSizes(items []page.Item, label string) []page.Pt {
	var sizes []page.Pt
	for _, item := range items {
		if text, ok := item.(page.Text); ok && text.String == label && text.Align == page.Centre {
			sizes = append(sizes, text.Size)
		}
	}
	return sizes
}

// A face is drawn with x to the right and y up from the wire side, as the plan gives it.
func TestFaceStandsUpright(t *testing.T) {
	m := loadFonts(t)
	c := pinCase{id: "P3", names: numbered(4), face: rowFace(numbered(4), 2, 2), fills: "w", trays: []string{"P3"}}
	items, _ := facePage(t, c, "", m)
	at := map[string]page.Text{}
	for _, item := range items {
		if text, ok := item.(page.Text); ok && text.Align == page.Centre {
			at[text.String] = text
		}
	}
	require.Less(t, at["1"].X, at["2"].X)
	require.Less(t, at["1"].Y, at["3"].Y)
	require.Equal(t, at["1"].X, at["3"].X)
}

// Up and down look the same from both sides of a connector; a mark for any other place could be mirrored.
func TestKeyIsMarkedOnlyWhereItCannotMislead(t *testing.T) {
	m := loadFonts(t)
	c := pinCase{id: "P3", names: numbered(9), face: rowFace(numbered(9), 5, 4), fills: "w", trays: []string{"P3"}}
	for key, marks := range map[string]int{"": 0, "up": 1, "down": 1, "left": 0, "30 deg, clocking N": 0} {
		items, problems := facePage(t, c, key, m)
		require.Empty(t, problems, key)
		found := 0
		for _, item := range items {
			if box, ok := item.(page.Box); ok && box.Filled {
				found++
			}
		}
		require.Equal(t, marks, found, key)
		if key != "" {
			require.Contains(t, wording(items), "key "+key)
		}
		var problemsOnPaper problem.List
		requireSound(t, []section{{sheet: "pins", pages: [][]page.Item{items}}}, problemsOnPaper, m)
	}
}

func TestConnectorWithoutAFaceSaysOrderOnly(t *testing.T) {
	m := loadFonts(t)
	items, problems := facePage(t, pinCase{id: "P7", names: numbered(9), fills: "w", trays: []string{"P7"}}, "", m)
	require.Empty(t, problems)
	require.Contains(t, wording(items), "ORDER ONLY: no picture of this face. Go by the marks on the insert.")
	require.NotContains(t, wording(items), "WIRE SIDE: you look at the back")
	require.Empty(t, circles(items))
}

func TestFaceThatCannotBeReadIsRefused(t *testing.T) {
	m := loadFonts(t)
	c := pinCase{id: "P7", names: numbered(60), face: rowFace(numbered(60), 60), fills: "w", trays: []string{"P7"}}
	_, problems := facePage(t, c, "", m)
	require.Len(t, problems, 1)
	require.Equal(t, "face-too-large", problems[0].Check)
	require.Equal(t, "demo.toml", problems[0].Place.File)
}

func TestSquareRootIsRoundedUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		square := rapid.Int64Range(1, 1<<60).Draw(t, "square")
		root := squareRoot(square)
		require.GreaterOrEqual(t, root*root, square)
		require.Less(t, (root-1)*(root-1), square)
	})
	require.Zero(t, squareRoot(0))
}

func TestFaceOfOnePlaceIsDrawn(t *testing.T) {
	m := loadFonts(t)
	for _, pitch := range []int64{0, 1000} {
		face := plan.Face{Kind: "places", Places: []plan.FacePlace{{Cavity: "1"}}, PitchUM: pitch}
		items, problems := facePage(t, pinCase{id: "P7", names: numbered(1), face: face, fills: "w", trays: []string{"P7"}}, "up", m)
		require.Empty(t, problems)
		require.Len(t, circles(items), 1)
	}
}

// TestEveryFaceOfAChecklistFitsTheTestersPages draws faces of every size: what a checklist holds, the pages of the tester hold as well.
func TestEveryFaceOfAChecklistFitsTheTestersPages(t *testing.T) {
	m := loadFonts(t)
	rapid.Check(t, func(t *rapid.T) {
		var cases []pinCase
		for i := range rapid.IntRange(1, 4).Draw(t, "connectors") {
			c := drawPinCase(t)
			c.id = []string{"J1", "P2", "SLED-P3", "J14"}[i]
			cases = append(cases, c)
		}
		p := sledPlan(cases, "0041")
		for i := range p.Connectors {
			p.Connectors[i].Key = rapid.SampledFrom([]string{"", "up", "down", "30 deg, clocking N"}).Draw(t, "key")
		}
		var onChecklist, problems problem.List
		pinSections(p, m, &onChecklist)
		document := sheetDocument(matingSections(p, m, &problems))
		if len(onChecklist) > 0 {
			return
		}
		require.Empty(t, problems)
		if len(document.Pages) == 0 {
			return
		}
		require.Empty(t, page.Check(document, m.Metrics))
		names := map[string]int{}
		for _, pg := range document.Pages {
			requireBetween(t, pg, mm(37), mm(257), m)
			requireClear(t, pg.Body, m)
			for _, item := range pg.Body {
				if text, is := item.(page.Text); is && text.Drawn {
					names[text.String]++
				}
			}
		}
		want := 0
		for _, c := range p.Connectors {
			if c.Face.Kind != "" {
				want += len(c.Cavities)
			}
		}
		sum := 0
		for _, n := range names {
			sum += n
		}
		require.Equal(t, want, sum)
	})
}
