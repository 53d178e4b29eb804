package slide

import "fettle/plan/sheet"

// Oil points and grooves along a slide of the length: a point in the middle of
// each equal share, and a groove through each.
var (
	// OilApart is the longest way from one oil point to the next.
	OilApart = sheet.Method{Text: "length / points", Source: "geometry: an oil point in the middle of each of as many equal shares"}

	// GrooveShare is the part of the slide's length along which there is a groove.
	GrooveShare = sheet.Method{Text: "points * groove / length", Source: "geometry"}

	// GrooveEnd is the land between a groove's end and the slide's, and half of
	// that between two grooves.
	GrooveEnd = sheet.Method{Text: "(length / points - groove) / 2", Source: "geometry: a groove in the middle of its share"}

	// GrooveVolume is the oil that the grooves hold; rows is how many ways have them.
	GrooveVolume = sheet.Method{Text: "rows * points * groove * groove_width * groove_depth", Source: "geometry: with square corners, so no less than that"}

	// HoseLength is the tube from a place that stays to one that travels, fixed
	// where the travel is half done.
	HoseLength = sheet.Method{Text: "travel / 2 + pi * bend + spare", Source: "geometry of a loop that rolls: half the travel, half a turn, and the straight ends"}
)

// Figures of oil ways.
const (
	OilApartMost       = 80.0
	OilApartMostSource = "common practice, no source: no more than 80 mm from one oil point to the next"
	GrooveShareLeast   = 0.6
	GrooveShareMost    = 0.8
	GrooveShareSource  = "common practice, no source: grooves along 60 to 80 % of the length"
	GrooveEdgeLeast    = 5.0
	GrooveEdgeSource   = "common practice, no source: no nearer than 5 mm to an edge, or the oil runs down there"
)
