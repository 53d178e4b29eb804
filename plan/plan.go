// Package plan is the engineering of Fettle. It is pure: no clock, no disk, no
// network; the same input gives the same output.
//
// Its rooms, each with its own tour:
//
//   - unit: lengths and other figures, as said in a workshop
//   - sheet: quantities, formulas, versions, knock-ons, checks, uncertainty
//   - fit: limits and fits, bearing seats, press fits, what heat does to them
//   - bearing: rolling bearings by size: load, life, stiffness, which one suits
//   - thread: threads by designation: sizes, limits, drills, strength, wires
//   - screw: feed screws: torque, buckling, whirling, sag, stretch, lost motion
//   - drive: belts, ratchets, differential screws, eccentrics
//   - dial: graduated dials: divisions, legibility, errors, how to divide them
//   - slide: dovetails, gibs, jamming, pressure, what gives
//   - joint: how a shaft is lengthened, and what each joint carries
//   - material: properties, weight, stock, cutting speed, anodising
//   - reading: ISO 230-2, straightness, squareness, uncertainty, before and after
//   - chain: tolerance chains
//   - fastener: screws, nuts, washers, pins and O-rings by their standards
//   - part: parts to make, as geometry
//   - axis: parts along a line: stops, engagement, cover, the shaft's end
//   - upgrade: the changes that can be made to a machine, one file a kind
//   - machine: a machine as found, with its upgrades, and the sheet of it all
//   - preset: machines and axes to start from, by size class, all of it assumed
//   - bench: the engineering as calculations that stand alone
//   - order: what parts are cut from, and what to buy
//   - drawing: views and parts to scale, and pictures of the bench figures
//   - exchange: one machine as a versioned JSON document; bench figures as JSON
//   - demo: a lathe and a mill, invented, to look at
//
// What the rooms share is here: an [Entry] is one figure as a person gave it.
package plan

import (
	"errors"
	"fmt"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Entry is a figure as a person gave it: what was typed is kept.
type Entry struct {
	Typed  string       // "118", `1-1/4"`; "" means not given
	Spread string       // typed: how far off it can be; "" means as the instrument usually is
	With   string       // the key of an instrument; "" means not said
	On     string       // the day it was taken, as 2006-01-02; "" means not said
	Origin sheet.Origin // "" means measured
	Note   string       // anything; of an assumption, its source; of a changed limit, why
}

// Given tells whether anything was typed.
func (e Entry) Given() bool { return e.Typed != "" }

// Instrument is what a figure is measured with.
type Instrument struct {
	Key, Label string
	Within     float64 // mm: a reading by hand is within this of the truth
	Source     string
}

// Instruments, and how far off a reading taken by hand with each can be.
// Common practice, no source; a careful hand does better and can say so.
var Instruments = []Instrument{
	{"rule", "steel rule", 0.5, practice},
	{"caliper", "caliper", 0.05, practice},
	{"depth_gauge", "depth gauge", 0.05, practice},
	{"micrometer", "micrometer", 0.01, practice},
	{"dial_gauge", "dial gauge", 0.01, practice},
	{"count", "counted or read off", 0, practice},
}

const practice = "common practice, no source"

// InstrumentNamed is the instrument with the key.
func InstrumentNamed(key string) (Instrument, bool) {
	for _, i := range Instruments {
		if i.Key == key {
			return i, true
		}
	}
	return Instrument{}, false
}

// Problem is something typed that cannot be taken: where, and a sentence that
// says what is accepted.
type Problem struct {
	Field string // "cross.bracket.length", or "cross.bracket.length.spread"
	Say   string
}

func (p Problem) Error() string { return p.Field + ": " + p.Say }

// Leaf reads the entry. A number without a unit is in u. Nothing typed gives an
// unknown leaf. It returns a [Problem] for what cannot be read, its Field empty
// or "spread", for the caller to complete.
func (e Entry) Leaf(u unit.Unit) (sheet.Leaf, error) {
	if !e.Given() {
		return sheet.Leaf{Origin: sheet.Unknown}, nil
	}
	v, err := unit.Parse(e.Typed, u)
	if err != nil {
		return sheet.Leaf{Origin: sheet.Unknown}, Problem{Say: say(err)}
	}
	l := sheet.Leaf{Value: v, Origin: e.Origin, Note: e.note()}
	if l.Origin == "" {
		l.Origin = sheet.Measured
	}
	switch in, ok := InstrumentNamed(e.With); {
	case e.Spread != "":
		half, err := unit.Parse(e.Spread, unit.Unit{Symbol: u.Symbol, Dim: u.Dim, Scale: u.Scale})
		if err == nil && half < 0 {
			err = errors.New("how far off it can be is not negative")
		}
		if err != nil {
			return l, Problem{Field: "spread", Say: say(err)}
		}
		l.Spread = sheet.Within(half)
	case ok && u.Dim == unit.LengthD:
		l.Spread = sheet.Within(in.Within)
	}
	return l, nil
}

func say(err error) string {
	switch {
	case errors.Is(err, unit.ErrLength), errors.Is(err, unit.ErrNumber):
		return "cannot be read; " + err.Error()
	}
	return err.Error()
}

func (e Entry) note() string {
	s := e.Note
	if in, ok := InstrumentNamed(e.With); ok {
		s = joined(in.Label, s)
	}
	return joined(s, e.On)
}

func joined(a, b string) string {
	switch {
	case a == "":
		return b
	case b == "":
		return a
	}
	return fmt.Sprintf("%s, %s", a, b)
}
