package bearing

import "errors"

// ClearanceSource is where the internal clearance comes from.
const ClearanceSource = "ISO 5753-1, group N (normal)"

// ErrClearance is returned for a bore that the table of clearances does not hold.
var ErrClearance = errors.New("the table of internal clearances is for bores of 2.5 to 40 mm")

// Clearance is the radial internal clearance of a deep groove bearing of the
// normal group as it is made, in µm, by its bore in mm: 3 to 18 at 12.
// It returns [ErrClearance].
//
// Source: ISO 5753-1.
func Clearance(bore float64) (least, most float64, err error) {
	if bore >= 2.5 {
		for _, row := range []struct{ to, least, most float64 }{{10, 2, 13}, {18, 3, 18}, {24, 5, 20}, {30, 5, 20}, {40, 6, 20}} {
			if bore <= row.to {
				return row.least, row.most, nil
			}
		}
	}
	return 0, 0, ErrClearance
}
