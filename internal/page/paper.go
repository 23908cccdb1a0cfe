package page

// A4 returns width and height of the paper: 210 x 297 mm (ISO 216, from memory), rounded to hundredths of a point.
func A4() (width, height Pt) { return 59528, 84189 }

// Letter returns width and height of the paper: 8.5 x 11 in (ANSI/ASME Y14.1, size A, from memory).
func Letter() (width, height Pt) { return 61200, 79200 }
