package web

import (
	"fmt"
	"strings"

	"rsc.io/qr"
)

// qrQuiet is the blank border that ISO/IEC 18004 asks for, in modules.
const qrQuiet = 4

// qrPicture is a QR code as a path in a square.
type qrPicture struct {
	size int    // of the square, in modules, with the border
	path string // the dark modules, a rectangle for each run in a row
}

// qrOf draws text at level M, which stands 15 % of it being unreadable.
func qrOf(text string) (qrPicture, error) {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return qrPicture{}, fmt.Errorf("QR code: %w", err)
	}
	var path strings.Builder
	for y := range code.Size {
		for x := 0; x < code.Size; x++ {
			from := x
			for x < code.Size && code.Black(x, y) {
				x++
			}
			if x > from {
				fmt.Fprintf(&path, "M%d %dh%dv1h-%dz", from+qrQuiet, y+qrQuiet, x-from, x-from)
			}
		}
	}
	return qrPicture{code.Size + 2*qrQuiet, path.String()}, nil
}

func (p qrPicture) viewBox() string { return fmt.Sprintf("0 0 %d %d", p.size, p.size) }
