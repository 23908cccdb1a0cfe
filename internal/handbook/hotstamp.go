package handbook

import "loomleaf/internal/units"

// HotStampWall returns the insulation wall at which and below which hot stamping calls for extreme care, since it can damage the
// insulation; laser, ink jet and dot matrix are preferred there, printed sleeves otherwise.
func HotStampWall() (units.Length, Source) {
	return 250, Source{Document: "AC 43.13-1B", Edition: "CHG 1 of 2001-09-27", Table: "11-209 and 11-210: 10 mil", Standing: Read}
}
