package material

import (
	"slices"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// MetrePerMinute is the unit of a cutting speed.
var MetrePerMinute = unit.Unit{Symbol: "m/min", Dim: unit.LengthD.Per(unit.TimeD), Scale: 1000.0 / 60, Decimals: 1}

// Speed is a range of cutting speeds for tools of high-speed steel, in m/min.
type Speed struct {
	Metal, Work string // keys of [CutMetals] and [CutWorks]
	Least, Most float64
}

// SpeedSource is where the cutting speeds come from.
const SpeedSource = "trade tables of speeds for high-speed steel; the lower end on a small machine"

// CutChoice is a metal, or a way to cut it, by name.
type CutChoice struct{ Key, Label string }

// CutMetals and CutWorks name what is cut, and how.
var (
	CutMetals = []CutChoice{
		{"mild_steel", "mild steel"}, {"stainless", "stainless steel"}, {"iron", "grey cast iron"}, {"brass", "brass"}, {"aluminium", "aluminium"},
	}
	CutWorks = []CutChoice{{"turning", "turning or boring"}, {"milling", "milling"}, {"drilling", "drilling"}}
)

var speeds = []Speed{
	{"mild_steel", "turning", 25, 45}, {"mild_steel", "milling", 25, 35}, {"mild_steel", "drilling", 30, 36},
	{"stainless", "turning", 9, 18},
	{"iron", "turning", 22, 30}, {"iron", "milling", 15, 30}, {"iron", "drilling", 25, 35},
	{"brass", "turning", 45, 120}, {"brass", "milling", 60, 150}, {"brass", "drilling", 60, 75},
	{"aluminium", "turning", 60, 150}, {"aluminium", "milling", 60, 150},
}

// SpeedOf is the range for a metal and a way of cutting it; ok is false where
// there is none in the tables.
func SpeedOf(metal, work string) (s Speed, ok bool) {
	i := slices.IndexFunc(speeds, func(s Speed) bool { return s.Metal == metal && s.Work == work })
	if i < 0 {
		return Speed{}, false
	}
	return speeds[i], true
}

// Factors on a cutting speed.
const (
	CarbideFactor = 2.0
	CarbideSource = "common practice, no source: twice the speed with carbide, which wants it"
	SlowFactor    = 0.4
	SlowSource    = "common practice, no source: a third to a half of the speed for parting, reaming and threading"
)

var (
	// TurnSpeed is the speed of spindle or cutter at which its rim has the cutting
	// speed; dia is that of the work turned, or of the cutter.
	TurnSpeed = sheet.Method{Text: "2 * cutting_speed / dia", Source: "geometry: the rim's speed is half the diameter times the angular speed; n = v / π d in turns"}

	// CutTime is the time that the tool is in the cut; turns is the speed, feed
	// what the tool moves a turn.
	CutTime = sheet.Method{
		Text:   "2 * pi * passes * (length + approach) / (feed * turns)",
		Source: "geometry: (L + approach) / (f n) for each pass; handling takes about three times that by hand: common practice, no source",
	}
)
