package units

// ParseLength reads a length such as "120 mm", "4.7 in" or "-6mm"; at most 1000 km either way.
// Digits finer than a micrometre are rounded to the nearest; every fault is an *Error.
func ParseLength(text string) (Length, error) {
	value, err := length.read(text)
	return Length(value), err
}

// ParseArea reads a cross-section such as "0.35 mm2"; at most a square metre, never negative. Faults are an *Error.
func ParseArea(text string) (Area, error) {
	value, err := area.read(text)
	return Area(value), err
}

// ParseMass reads a mass such as "4 kg"; at most 1000 t, never negative. Faults are an *Error.
func ParseMass(text string) (Mass, error) {
	value, err := mass.read(text)
	return Mass(value), err
}

// ParseLinearMass reads a mass per length such as "5.2 g/m"; at most 1 t/m, never negative. Faults are an *Error.
func ParseLinearMass(text string) (LinearMass, error) {
	value, err := linearMass.read(text)
	return LinearMass(value), err
}

// ParseTime reads a duration such as "0.15 s" or "2 min"; at most 10000 h, never negative. Faults are an *Error.
func ParseTime(text string) (Time, error) {
	value, err := duration.read(text)
	return Time(value), err
}

// ParseSpeed reads a speed such as "1.2 m/s"; at most 1000 m/s, never negative. Faults are an *Error.
func ParseSpeed(text string) (Speed, error) {
	value, err := speed.read(text)
	return Speed(value), err
}

// ParseIrradiance reads a radiant power per area such as "10 W/m2" or "0.2 uW/cm2"; at most 1 GW/m2, never negative.
// Faults are an *Error.
func ParseIrradiance(text string) (Irradiance, error) {
	value, err := irradiance.read(text)
	return Irradiance(value), err
}

// ParseShare reads a fraction such as "0.1 %" or "100 ppm"; at most 100 %, never negative. Faults are an *Error.
func ParseShare(text string) (Share, error) {
	value, err := share.read(text)
	return Share(value), err
}

// ParseForce reads a force such as "53.4 N" or "12 lbf"; at most 1000 kN, never negative. Faults are an *Error.
func ParseForce(text string) (Force, error) {
	value, err := force.read(text)
	return Force(value), err
}

// ParseAngle reads an angle such as "0 deg"; at most 360 deg either way. Faults are an *Error.
func ParseAngle(text string) (Angle, error) {
	value, err := angle.read(text)
	return Angle(value), err
}

// ParseFactor reads a plain number such as "0.9"; at most 1000000, never negative. Faults are an *Error.
func ParseFactor(text string) (Factor, error) {
	value, err := factor.read(text)
	return Factor(value), err
}

// kind names one kind of quantity.
type kind uint8

const (
	length kind = iota
	area
	mass
	linearMass
	duration
	speed
	irradiance
	share
	force
	angle
	factor
)

// form says how a kind of quantity is written.
type form struct {
	name   string // with its article: "no length"
	want   string // how to write it
	units  []unit
	limit  int64 // largest value, in the small unit
	most   string
	signed bool
}

// unit is a unit by name: one of it is num/den of the small unit.
type unit struct {
	name     string
	num, den uint64
}

// form returns how the kind is written.
//
// The inch is 25.4 mm and the pound 453.59237 g exactly (international yard and pound agreement, 1959; from memory); the
// pound-force is that pound at 9.80665 m/s2, 4.4482216152605 N (derived).
func (k kind) form() form {
	switch k {
	case length:
		return form{"no length", "write a number and a unit, such as 120 mm or 4.7 in; um, mm, cm, m, in, ft",
			[]unit{{"mm", 1000, 1}, {"cm", 10_000, 1}, {"m", 1_000_000, 1}, {"in", 25_400, 1}, {"ft", 304_800, 1},
				{"um", 1, 1}, {"µm", 1, 1}, {"μm", 1, 1}}, // micro sign and Greek mu
			1_000_000_000_000, "1000 km", true}
	case area:
		return form{"no cross-section", "write a number and mm2, such as 0.34 mm2",
			[]unit{{"mm2", 1_000_000, 1}, {"mm²", 1_000_000, 1}},
			1_000_000_000_000, "1000000 mm2", false}
	case mass:
		return form{"no mass", "write a number and a unit, such as 4 kg; mg, g, kg, lb",
			[]unit{{"g", 1000, 1}, {"kg", 1_000_000, 1}, {"mg", 1, 1}, {"lb", 45_359_237, 100}},
			1_000_000_000_000, "1000000 kg", false}
	case linearMass:
		return form{"no mass per length", "write a number and a unit, such as 5.2 g/m; mg/m, g/m, kg/km, lb/1000 ft",
			[]unit{{"g/m", 1000, 1}, {"kg/km", 1000, 1}, {"mg/m", 1, 1},
				{"lb/1000 ft", 45_359_237, 30_480}, {"lb/1000ft", 45_359_237, 30_480}},
			1_000_000_000, "1000000 g/m", false}
	case duration:
		return form{"no time", "write a number and a unit, such as 0.15 s or 2 min; ms, s, min, h",
			[]unit{{"s", 1000, 1}, {"ms", 1, 1}, {"min", 60_000, 1}, {"h", 3_600_000, 1}},
			36_000_000_000, "10000 h", false}
	case speed:
		return form{"no speed", "write a number and a unit, such as 1.2 m/s; mm/s, m/s, m/min",
			[]unit{{"m/s", 1_000_000, 1}, {"mm/s", 1000, 1}, {"m/min", 50_000, 3}},
			1_000_000_000, "1000 m/s", false}
	case irradiance:
		return form{"no irradiance", "write a number and a unit, such as 10 W/m2; uW/cm2, mW/cm2, W/cm2, mW/m2, W/m2",
			[]unit{{"W/m2", 1_000_000, 1}, {"W/m²", 1_000_000, 1}, {"mW/m2", 1000, 1}, {"uW/cm2", 10_000, 1}, {"mW/cm2", 10_000_000, 1},
				{"W/cm2", 10_000_000_000, 1}},
			1_000_000_000_000_000, "1000000000 W/m2", false}
	case share:
		return form{"no share", "write a number and % or ppm, such as 0.1 %",
			[]unit{{"%", 10_000, 1}, {"ppm", 1, 1}},
			1_000_000, "100 %", false}
	case force:
		return form{"no force", "write a number and a unit, such as 53.4 N or 12 lbf",
			[]unit{{"N", 1000, 1}, {"lbf", 44_482_216_152_605, 10_000_000_000}, {"mN", 1, 1}, {"kN", 1_000_000, 1}},
			1_000_000_000, "1000 kN", false}
	case angle:
		return form{"no angle", "write a number and deg, such as 90 deg",
			[]unit{{"deg", 1000, 1}, {"°", 1000, 1}},
			360_000, "360 deg", true}
	default:
		return form{"no number", "write a plain number, such as 0.9",
			[]unit{{"", 1000, 1}},
			1_000_000_000, "1000000", false}
	}
}
