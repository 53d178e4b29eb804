package photo

import (
	"image"
	"math"
)

// colours takes the values of a picture to those of sRGB, which a picture without a profile is shown in. Nil:
// they are sRGB's already, or nothing is known of them.
type colours struct {
	light [3][256]int32 // the light of a value, for each channel; 1 << lightBits is all of it
	grey  [256]uint8    // what becomes of a grey
	mix   [3][3]int32   // how much of each channel's light is in each of sRGB's; 1 << mixBits is all of it
}

const (
	lightBits = 15
	mixBits   = 12
	stepBits  = 13 // of light, fine enough that sRGB's steepest stretch rises by less than half a value a step
)

// matrix takes light in three channels to three others.
type matrix [3][3]float64

func (m matrix) times(light [3]float64) (out [3]float64) {
	for i, row := range m {
		out[i] = row[0]*light[0] + row[1]*light[1] + row[2]*light[2]
	}
	return out
}

// newColours makes the tables for curves, from a value to its light, both 0 to 1, and a matrix to sRGB's light.
// Curves or a matrix that leave black not black or white not white are no description of a picture.
func newColours(curves [3]func(float64) float64, m matrix) *colours {
	c := &colours{}
	var black, white [3]float64
	for i, curve := range curves {
		black[i], white[i] = curve(0), curve(1)
		for v := range c.light[i] {
			light := curve(float64(v) / 255)
			if !(light > 0) { // or is no number
				continue
			}
			c.light[i][v] = int32(math.Round(min(light, 1) * (1 << lightBits)))
		}
	}
	dark, bright := m.times(black), m.times(white)
	for i, row := range m {
		if !(math.Abs(dark[i]) < 0.05 && math.Abs(bright[i]-1) < 0.05) {
			return nil
		}
		for j, share := range row {
			if !(math.Abs(share) < 8) {
				return nil
			}
			c.mix[i][j] = int32(math.Round(share * (1 << mixBits)))
		}
	}
	for v := range c.grey {
		_, y, _ := c.toSRGB(v, v, v)
		c.grey[v] = uint8(y)
	}
	if c.isSRGB() {
		return nil
	}
	return c
}

// isSRGB tells whether nothing would be changed by more than rounding.
func (c *colours) isSRGB() bool {
	const step = 17 // 15 of them are 255
	for i := range 16 * 16 * 16 {
		r, g, b := i%16*step, i/16%16*step, i/256*step
		x, y, z := c.toSRGB(r, g, b)
		if max(x-r, r-x, y-g, g-y, z-b, b-z) > 1 {
			return false
		}
	}
	return true
}

func (c *colours) toSRGB(r, g, b int) (x, y, z int) {
	l, m, n := int(c.light[0][r&255]), int(c.light[1][g&255]), int(c.light[2][b&255])
	return encoded(int(c.mix[0][0])*l + int(c.mix[0][1])*m + int(c.mix[0][2])*n),
		encoded(int(c.mix[1][0])*l + int(c.mix[1][1])*m + int(c.mix[1][2])*n),
		encoded(int(c.mix[2][0])*l + int(c.mix[2][1])*m + int(c.mix[2][2])*n)
}

// encoded gives the value of light of which lightBits + mixBits are all. What sRGB cannot show becomes the
// most or the least that it can.
func encoded(light int) int {
	const down = lightBits + mixBits - stepBits
	return int(values[min(max((light+1<<(down-1))>>down, 0), 1<<stepBits)])
}

// values are sRGB's for light in even steps.
var values = func() (table [1<<stepBits + 1]uint8) {
	for i := range table {
		light := float64(i) / (1 << stepBits)
		value := 12.92 * light
		if light > 0.0031308 {
			value = 1.055*math.Pow(light, 1/2.4) - 0.055
		}
		table[i] = uint8(math.Round(value * 255))
	}
	return table
}()

// lightOf is the light of a value of sRGB. Source: IEC 61966-2-1:1999.
func lightOf(value float64) float64 {
	if value <= 0.04045 {
		return value / 12.92
	}
	return math.Pow((value+0.055)/1.055, 2.4)
}

// convert takes a picture to sRGB. Its colour planes are as fine as the other, or half as fine both ways: then
// what becomes of a colour is worked out once for its four pixels, and each keeps its distance from their mean.
//
// Source of the sums: ITU-T T.871 (JFIF) clause 7, in 65,536ths.
func (c *colours) convert(img *image.YCbCr) {
	if c == nil {
		return
	}
	block := 1
	if img.SubsampleRatio == image.YCbCrSubsampleRatio420 {
		block = 2
	}
	p := planes(img)
	for row := range p[1].height {
		upper, lower := row*block, min(row*block+block-1, p[0].height-1)
		c.convertRow(p[0].pix[upper*p[0].stride:][:p[0].width], p[0].pix[lower*p[0].stride:][:p[0].width],
			p[1].pix[row*p[1].stride:][:p[1].width], p[2].pix[row*p[2].stride:][:p[1].width], block)
	}
}

// convertRow converts a row of colours, with the two rows, or one, that are seen in them.
func (c *colours) convertRow(upper, lower, cbs, crs []byte, block int) {
	lower, crs = lower[:len(upper)], crs[:len(cbs)]
	for col, blue := range cbs {
		left, right := col*block, min(col*block+block-1, len(upper)-1)
		p, q, s, t := upper[left], upper[right], lower[left], lower[right]
		mean := (int(p) + int(q) + int(s) + int(t) + 2) / 4
		cb, cr, luma := int(blue)-128, int(crs[col])-128, mean<<16+1<<15
		x, y, z := c.toSRGB(byteOf(luma+91881*cr), byteOf(luma-22554*cb-46802*cr), byteOf(luma+116130*cb))
		shift := (19595*x+38470*y+7471*z+1<<15)>>16 - int(c.grey[mean])
		cbs[col] = uint8(byteOf(-11056*x - 21712*y + 32768*z + 257<<15))
		crs[col] = uint8(byteOf(32768*x - 27440*y - 5328*z + 257<<15))
		upper[left], upper[right] = c.shifted(p, shift), c.shifted(q, shift)
		lower[left], lower[right] = c.shifted(s, shift), c.shifted(t, shift)
	}
}

func (c *colours) shifted(luma byte, by int) byte {
	return uint8(min(max(int(c.grey[luma])+by, 0), 255))
}

func byteOf(v int) int { return min(max(v>>16, 0), 255) }
