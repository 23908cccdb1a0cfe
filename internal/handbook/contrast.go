package handbook

// Inks that a marking line carries.
const (
	BlackInk = "black"
	WhiteInk = "white"
)

// Between these two, in thousandths of white, neither ink is sure to be read. Limits of our own: with the blackest and the
// whitest mark in use near 50 and 850, they leave a difference of more than eight tenths of the lighter one.
const (
	lightFrom = 400
	darkUpTo  = 110
)

// Contrast returns the ink that stands out from the base and from every stripe of a colour. It reports false for colours
// between light and dark, for light and dark on one wire, for unknown colours and for what is no colour code: the type
// must then be tested first.
func Contrast(code string) (ink string, known bool, source Source) {
	source = Source{Document: "dark ink on light insulation, light ink on dark", Table: "lightness table of our own",
		Standing: CommonPractice}
	colour, listed := ColourOf(code)
	if !listed || len(colour.Luminances) == 0 {
		return "", false, source
	}
	light, dark := true, true
	for _, luminance := range colour.Luminances {
		light = light && luminance >= lightFrom
		dark = dark && luminance <= darkUpTo
	}
	switch {
	case light:
		return BlackInk, true, source
	case dark:
		return WhiteInk, true, source
	default:
		return "", false, source
	}
}

// InkHidden reports whether an ink cannot show on a colour, whatever a record says: black on a black base, white on a white one.
func InkHidden(code, ink string) bool {
	colour, listed := ColourOf(code)
	if !listed || len(colour.Bases) == 0 {
		return false
	}
	return ink == BlackInk && colour.Bases[0] == "BK" || ink == WhiteInk && colour.Bases[0] == "WH"
}
