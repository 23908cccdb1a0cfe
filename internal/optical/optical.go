// Package optical does the arithmetic on measured ultraviolet irradiance that a qualified person may want to have done.
//
// It weighs quoted figures and divides limits by them. It chooses no class, no limit for a laser, no optical density, no
// distance, no eyewear and no glove, and it assesses nothing: a result is arithmetic on the figures given.
// Limits: ICNIRP 2004, as in Directive 2006/25/EC, Annex I, Table 1.1; not for lasers, not for people made sensitive to light.
package optical

import (
	"fmt"
	"math"

	"loomleaf/internal/handbook"
)

const (
	// ActinicLimit is the weighted exposure of eye and skin within 8 h, 180 to 400 nm, in J/m2
	// (Directive 2006/25/EC, Annex I, Table 1.1, row a; read).
	ActinicLimit = 30.0
	// UVALimit is the unweighted exposure of the eye within 8 h, 315 to 400 nm, in J/m2
	// (ICNIRP 2004, second-hand; Directive 2006/25/EC, Annex I, Table 1.1, row b: its wavelengths read, its number from memory).
	UVALimit = 10000.0
	// Day is the span that the limits speak of, in seconds.
	Day = 8 * 3600

	shortest, longest = 180.0, 400.0 // nm
	uvaFrom           = 315.0
)

// ActinicSource, UVASource, WeightSource and OzoneSource say where the figures come from and how sure they are.
func ActinicSource() handbook.Source {
	return handbook.Source{Document: "Directive 2006/25/EC", Table: "Annex I, Table 1.1, row a", Standing: handbook.Read}
}

// UVASource is the source of UVALimit.
func UVASource() handbook.Source {
	return handbook.Source{Document: "ICNIRP guideline on ultraviolet radiation", Edition: "2004", Standing: handbook.SecondHand}
}

// WeightSource is the source of the table of S.
func WeightSource() handbook.Source {
	return handbook.Source{Document: "ICNIRP guideline on ultraviolet radiation", Edition: "2004", Table: "table of S", Standing: handbook.SecondHand}
}

// OzoneSource is the source of the conversion of ozone.
func OzoneSource() handbook.Source {
	return handbook.Source{Document: "unsigned research note on ICNIRP, IEC and ANSI limits", Table: "1 ppm = 1.96 mg/m3 at 25 C", Standing: handbook.SecondHand}
}

// Line is irradiance at one wavelength.
type Line struct {
	Nanometres float64
	Irradiance float64 // W/m2
}

// Exposure is what the lines of one place add up to.
type Exposure struct {
	Effective float64 // weighted, 180 to 400 nm, W/m2
	UVA       float64 // unweighted, 315 to 400 nm, W/m2
	Actinic   int     // seconds to the weighted limit, rounded down, at most Day
	EyeUVA    int     // seconds to the limit of the eye, rounded down, at most Day
}

// Eye returns the seconds for the eye: the smaller of both limits.
func (e Exposure) Eye() int { return min(e.Actinic, e.EyeUVA) }

// Skin returns the seconds for the skin, which only the weighted limit holds for.
func (e Exposure) Skin() int { return e.Actinic }

// Governs names the limit that decides for the eye, by the sums themselves: rounded times can be equal by chance.
func (e Exposure) Governs() string {
	const alike = 1e-9 // S is given in decimals: a ratio that is one but for the last bit is one
	actinic, uva := e.Effective/ActinicLimit, e.UVA/UVALimit
	switch {
	case math.Abs(actinic-uva) <= alike*math.Max(actinic, uva):
		return "both limits alike"
	case actinic > uva:
		return "the weighted (actinic) limit"
	}
	return "the UVA limit"
}

// Add returns what lines add up to. A wavelength outside 180 to 400 nm, an irradiance that is no number or not above zero,
// or no line at all is an error.
func Add(lines []Line) (Exposure, error) {
	if len(lines) == 0 {
		return Exposure{}, fmt.Errorf("there is no measured line")
	}
	var sum Exposure
	for _, line := range lines {
		weight, err := Weight(line.Nanometres)
		if err != nil {
			return Exposure{}, err
		}
		if math.IsNaN(line.Irradiance) || math.IsInf(line.Irradiance, 0) || line.Irradiance <= 0 {
			return Exposure{}, fmt.Errorf("the irradiance at %g nm is not above zero", line.Nanometres)
		}
		sum.Effective += float64(line.Irradiance * weight) // no fused multiply and add: the same on every processor
		if line.Nanometres >= uvaFrom {
			sum.UVA += line.Irradiance
		}
	}
	sum.Actinic, sum.EyeUVA = seconds(ActinicLimit, sum.Effective), seconds(UVALimit, sum.UVA)
	return sum, nil
}

// seconds divides a limit by an irradiance, rounds down and stops at Day.
func seconds(limit, irradiance float64) int {
	const grain = 1e-9 // a quotient that is whole but for the last bit stays whole
	if irradiance <= 0 || limit/irradiance >= Day {
		return Day
	}
	return int(math.Floor(limit/irradiance + grain))
}

// Weight returns the relative spectral effectiveness S at a wavelength: tabulated, and between the wavelengths of the table
// by log interpolation. The formula in three pieces is not used: at 295 nm it allows 12 % too much time.
func Weight(nanometres float64) (float64, error) {
	if math.IsNaN(nanometres) || nanometres < shortest || nanometres > longest {
		return 0, fmt.Errorf("%g nm lies outside %g to %g nm", nanometres, shortest, longest)
	}
	table := effectiveness()
	for i := 1; i < len(table); i++ {
		low, high := table[i-1], table[i]
		if nanometres > high.nm {
			continue
		}
		if nanometres == high.nm {
			return high.s, nil
		}
		share := (nanometres - low.nm) / (high.nm - low.nm)
		return low.s * math.Pow(high.s/low.s, share), nil
	}
	return table[len(table)-1].s, nil
}

// OzoneMilligrams converts ozone in air from ppm to mg/m3 at 25 C: 1.96 (second-hand; 29 CFR 1910.1000 gives 0.1 ppm as
// 0.2 mg/m3, read in an archived sampling page).
func OzoneMilligrams(ppm float64) float64 { return ppm * 1.96 }

// SquareCentimetre converts an exposure from J/m2 to mJ/cm2.
func SquareCentimetre(joulesPerSquareMetre float64) float64 { return joulesPerSquareMetre / 10 }
