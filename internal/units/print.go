package units

import "fmt"

// String returns the exact length in millimetres: "119.38 mm".
func (l Length) String() string { return decimal(int64(l), 3) + " mm" }

// String returns the exact cross-section: "0.34 mm2".
func (a Area) String() string { return decimal(int64(a), 6) + " mm2" }

// String returns the exact mass in grams: "4000 g".
func (m Mass) String() string { return decimal(int64(m), 3) + " g" }

// String returns the exact mass per length: "5.2 g/m".
func (m LinearMass) String() string { return decimal(int64(m), 3) + " g/m" }

// String returns the exact duration in seconds: "0.15 s".
func (t Time) String() string { return decimal(int64(t), 3) + " s" }

// String returns the exact speed: "1.2 m/s".
func (s Speed) String() string { return decimal(int64(s), 6) + " m/s" }

// String returns the exact irradiance: "10 W/m2".
func (i Irradiance) String() string { return decimal(int64(i), 6) + " W/m2" }

// String returns the exact share in per cent: "0.1 %".
func (s Share) String() string { return decimal(int64(s), 4) + " %" }

// String returns the exact force: "53.379 N".
func (f Force) String() string { return decimal(int64(f), 3) + " N" }

// String returns the exact angle: "22.5 deg".
func (a Angle) String() string { return decimal(int64(a), 3) + " deg" }

// String returns the exact number: "0.9".
func (f Factor) String() string { return decimal(int64(f), 3) }

// Millimetres returns whole millimetres, halves rounded up: "1432".
func (l Length) Millimetres() string { return decimal(roundDiv(int64(l), 1000), 0) }

// MillimetresTenths returns millimetres to a tenth, halves rounded up: "5.4", or "5" when whole.
func (l Length) MillimetresTenths() string { return decimal(roundDiv(int64(l), 100), 1) }

// Metres returns metres with one decimal, rounded up: "14.4", "14.0". It is meant for amounts to take or to order.
func (l Length) Metres() string {
	tenths := ceilDiv(int64(l), 100_000)
	sign := ""
	if tenths < 0 {
		sign, tenths = "-", -tenths
	}
	return fmt.Sprintf("%s%d.%d", sign, tenths/10, tenths%10)
}

// SquareMillimetres returns square millimetres to a hundredth, and to two significant digits below a tenth: "0.33", "0.20",
// "0.034". The digits say how finely the figure is known, so zeros at the end stay.
func (a Area) SquareMillimetres() string {
	grain, places := int64(10_000), 2
	for grain > 1 && int64(a) > -grain*10 && int64(a) < grain*10 {
		grain, places = grain/10, places+1
	}
	return fixed(roundDiv(int64(a), grain), places)
}

// Newtons returns newtons to a tenth: rounded up for what must be reached, down for what may not be passed.
func (f Force) Newtons(up bool) string {
	if up {
		return decimal(ceilDiv(int64(f), 100), 1)
	}
	return decimal(floorDiv(int64(f), 100), 1)
}

// Pounds returns pounds-force to a tenth, rounded as Newtons does. A force read in pounds comes back as it was written.
func (f Force) Pounds(up bool) string {
	const tenth, scale = 44_482_216_153, 100_000_000 // a tenth of a pound-force is tenth/scale millinewtons
	whole, half := int64(f)*scale, int64(scale/2)    // the force stands for all that rounds to it
	if up {
		return decimal(ceilDiv(max(whole-half, 0), tenth), 1)
	}
	return decimal(floorDiv(whole+scale, tenth), 1) // a share of such a force was rounded once more
}

// CeilTo returns the smallest multiple of step that is not less than the length. A step must be above zero.
func (l Length) CeilTo(step Length) Length {
	return Length(ceilDiv(int64(l), int64(step))) * step
}

// floorDiv divides and rounds down; by is above zero.
func floorDiv(value, by int64) int64 {
	quotient := value / by
	if value%by < 0 {
		quotient--
	}
	return quotient
}

// ceilDiv divides and rounds up; by is above zero.
func ceilDiv(value, by int64) int64 {
	quotient := value / by
	if value%by > 0 {
		quotient++
	}
	return quotient
}

// roundDiv divides and rounds to nearest, halves up; by is 1 or even.
func roundDiv(value, by int64) int64 {
	quotient := floorDiv(value, by)
	if value-quotient*by >= by-by/2 && by > 1 {
		quotient++
	}
	return quotient
}
