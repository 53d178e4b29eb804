package photo

import "image"

// turn gives a picture the right way up. The orientation says where its first row and column are:
//
//	1 top, left    2 top, right    3 bottom, right   4 bottom, left
//	5 left, top    6 right, top    7 right, bottom   8 left, bottom
//
// Source: Exif 2.32 (CIPA DC-008-2019) 4.6.4, tag 0112 Orientation.
func turn(img *image.YCbCr, orientation int) *image.YCbCr {
	if orientation <= 1 || orientation > 8 {
		return img
	}
	size := img.Rect.Size()
	if orientation >= 5 {
		size.X, size.Y = size.Y, size.X
	}
	out := image.NewYCbCr(image.Rectangle{Max: size}, img.SubsampleRatio)
	from, to := planes(img), planes(out)
	for i := range from {
		turnPlane(to[i], from[i], orientation)
	}
	return out
}

// turnPlane goes along the rows of what it writes; what it reads steps through the plane.
func turnPlane(to, from plane, orientation int) {
	start, right, down := 0, 1, from.stride // where to begin to read, and the steps for one to the right and one down
	lastX, lastY := from.width-1, (from.height-1)*from.stride
	switch orientation {
	case 2:
		start, right = lastX, -1
	case 3:
		start, right, down = lastX+lastY, -1, -from.stride
	case 4:
		start, down = lastY, -from.stride
	case 5:
		right, down = from.stride, 1
	case 6:
		start, right, down = lastY, -from.stride, 1
	case 7:
		start, right, down = lastX+lastY, -from.stride, -1
	case 8:
		start, right, down = lastX, from.stride, -1
	}
	// In squares, so that a column read is still near for the next.
	const square = 32
	for top := 0; top < to.height; top += square {
		for left := 0; left < to.width; left += square {
			for y := top; y < min(top+square, to.height); y++ {
				row := to.pix[y*to.stride:][:to.width]
				at := start + y*down + left*right
				for x := left; x < min(left+square, to.width); x++ {
					row[x] = from.pix[at]
					at += right
				}
			}
		}
	}
}

// plane is one of the three of a picture.
type plane struct {
	pix                   []byte
	stride, width, height int
}

func planes(img *image.YCbCr) [3]plane {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	cw, ch := w, h
	switch img.SubsampleRatio {
	case image.YCbCrSubsampleRatio420:
		cw, ch = (w+1)/2, (h+1)/2
	case image.YCbCrSubsampleRatio422:
		cw = (w + 1) / 2
	case image.YCbCrSubsampleRatio440:
		ch = (h + 1) / 2
	case image.YCbCrSubsampleRatio411:
		cw = (w + 3) / 4
	case image.YCbCrSubsampleRatio410:
		cw, ch = (w+3)/4, (h+1)/2
	}
	return [3]plane{{img.Y, img.YStride, w, h}, {img.Cb, img.CStride, cw, ch}, {img.Cr, img.CStride, cw, ch}}
}
