// Package units holds the quantities of the trade as whole numbers, and reads and prints them.
//
// Every quantity is an integer in one small unit, so that sums are exact and the same on every processor. Reading takes
// a decimal number with a point and a unit, with or without a blank between; printing by String reads back unchanged.
package units

// Length is a length in micrometres.
type Length int64

// Area is a cross-section in square micrometres (0.34 mm2 is 340000).
type Area int64

// Mass is a mass in milligrams.
type Mass int64

// LinearMass is a mass per length in milligrams per metre.
type LinearMass int64

// Time is a duration in milliseconds.
type Time int64

// Speed is a speed in micrometres per second.
type Speed int64

// Irradiance is a radiant power per area in microwatts per square metre (1 mW/cm2 is 10000000).
type Irradiance int64

// Share is a fraction in parts per million (0.1 % is 1000).
type Share int64

// Force is a force in millinewtons.
type Force int64

// Angle is an angle in millidegrees.
type Angle int64

// Factor is a plain number in thousandths (0.9 is 900).
type Factor int64

// Lengths in micrometres.
const (
	Micrometre Length = 1
	Millimetre Length = 1000
	Metre      Length = 1000000
	Inch       Length = 25400
)
