package photo

import (
	"encoding/binary"
	"math"
)

// mostProfile is enough for any profile of matrix and curves, which have a few kilobytes.
const mostProfile = 256 << 10

// toSRGB takes light as profiles state it, which is seen under D50, to sRGB's: the inverse of the colorants of
// the profile sRGB2014 of the International Color Consortium.
var toSRGB = inverse(matrix{
	{0.43607, 0.38515, 0.14307},
	{0.22249, 0.71687, 0.06061},
	{0.01392, 0.09708, 0.71410},
})

// fromICC reads a profile of three curves and a matrix. Any other, of tables, inks or greys, and one that is
// damaged, is nil: the picture stays as it is.
//
// Source: ICC.1:2022 7.2 (header), 7.3 (tags), 8.3 to 8.5 (classes), F.3 (three curves and a matrix).
func fromICC(profile []byte) *colours {
	if len(profile) < 132 || string(profile[36:40]) != "acsp" || string(profile[16:24]) != "RGB XYZ " {
		return nil
	}
	var curves [3]func(float64) float64
	var colorants matrix
	for i, channel := range []string{"r", "g", "b"} {
		if curves[i] = curveOf(tag(profile, channel+"TRC")); curves[i] == nil {
			return nil
		}
		xyz := tag(profile, channel+"XYZ")
		if len(xyz) < 20 || string(xyz[:4]) != "XYZ " {
			return nil
		}
		for j := range 3 {
			colorants[j][i] = fixed(xyz[8+4*j:])
		}
	}
	return newColours(curves, toSRGB.after(colorants))
}

// tag gives the content of a tag, or nil.
func tag(profile []byte, name string) []byte {
	table := profile[132:]
	for range min(int(binary.BigEndian.Uint32(profile[128:])), len(table)/12) {
		at, size := int64(binary.BigEndian.Uint32(table[4:])), int64(binary.BigEndian.Uint32(table[8:]))
		if string(table[:4]) == name && at+size <= int64(len(profile)) {
			return profile[at : at+size]
		}
		table = table[12:]
	}
	return nil
}

// fixed reads a number in 65,536ths: s15Fixed16Number, ICC.1:2022 4.6.
func fixed(b []byte) float64 { return float64(int32(binary.BigEndian.Uint32(b))) / (1 << 16) }

// curveOf reads a curve from a value to its light, both 0 to 1; nil: it is none.
//
// Source: ICC.1:2022 10.6 curveType, 10.18 parametricCurveType.
func curveOf(content []byte) func(float64) float64 {
	if len(content) < 12 {
		return nil
	}
	switch string(content[:4]) {
	case "curv":
		return sampled(int64(binary.BigEndian.Uint32(content[8:])), content[12:])
	case "para":
		return parametric(binary.BigEndian.Uint16(content[8:]), content[12:])
	}
	return nil
}

func sampled(n int64, content []byte) func(float64) float64 {
	switch {
	case n == 0:
		return func(v float64) float64 { return v }
	case int64(len(content)) < 2*n:
		return nil
	case n == 1:
		gamma := float64(binary.BigEndian.Uint16(content)) / (1 << 8)
		return func(v float64) float64 { return math.Pow(v, gamma) }
	}
	return func(v float64) float64 {
		place := v * float64(n-1)
		i := min(int(place), int(n)-2)
		low, high := float64(binary.BigEndian.Uint16(content[2*i:])), float64(binary.BigEndian.Uint16(content[2*i+2:]))
		return (low + (high-low)*(place-float64(i))) / 65535
	}
}

func parametric(function uint16, content []byte) func(float64) float64 {
	numbers := map[uint16]int{0: 1, 1: 3, 2: 4, 3: 5, 4: 7}[function]
	if numbers == 0 || len(content) < 4*numbers {
		return nil
	}
	var p [7]float64
	for i := range numbers {
		p[i] = fixed(content[4*i:])
	}
	g, a, b, c, d, e, f := p[0], p[1], p[2], p[3], p[4], p[5], p[6]
	switch function {
	case 0:
		a, c, d = 1, 0, 0
	case 1:
		c, d = 0, -b/a
	case 2:
		c, d, e, f = 0, -b/a, c, c
	}
	return func(v float64) float64 {
		if v >= d {
			return math.Pow(a*v+b, g) + e
		}
		return c*v + f
	}
}

// after is the matrix that does what the other does first, and then what m does.
func (m matrix) after(first matrix) (both matrix) {
	for i := range 3 {
		column := m.times([3]float64{first[0][i], first[1][i], first[2][i]})
		both[0][i], both[1][i], both[2][i] = column[0], column[1], column[2]
	}
	return both
}

// inverse undoes a matrix, by its cofactors.
func inverse(m matrix) (out matrix) {
	det := 0.0
	for i := range 3 {
		for j := range 3 {
			a, b, c, d := (i+1)%3, (i+2)%3, (j+1)%3, (j+2)%3
			out[j][i] = m[a][c]*m[b][d] - m[a][d]*m[b][c]
		}
		det += m[0][i] * out[i][0]
	}
	for i := range out {
		for j := range out[i] {
			out[i][j] /= det
		}
	}
	return out
}
