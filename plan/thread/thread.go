package thread

import (
	"fmt"
	"strconv"
	"strings"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// Thread is one screw thread. Lengths are in mm.
type Thread struct {
	Series *Series
	Size   string  // as the series says it: "12", "1/4", "2"
	Dia    float64 // major diameter of the basic profile
	Pitch  float64
	TPI    float64 // threads to the inch; 0 where the series counts in mm
	Starts int     // 1 for a single thread
	Left   bool    // left hand
	Class  string  // of tolerance, as typed: "6g", "2A"; "" where none was
	Listed bool    // the size and pitch are in the series' table
	Tap    float64 // pilot drill of ISO 2306; 0 where there is none
}

// Lead is what one turn moves, in mm. On a sheet it is the formula [Lead].
func (t Thread) Lead() float64 { return t.Pitch * float64(t.Starts) }

// String is the designation without the class, in a way that [Parse] takes:
// "M12x1.5 LH", "Tr40x14(P7)", "1/4-20 UNC", "2BA".
func (t Thread) String() string {
	s := t.name()
	if t.Left {
		s += " LH"
	}
	return s
}

func (t Thread) name() string {
	lead, pitch := short(t.Lead()), short(t.Pitch)
	many := ""
	if t.Starts > 1 {
		many = fmt.Sprintf(" %d starts", t.Starts)
	}
	switch t.Series.Key {
	case "M", "MF":
		switch {
		case t.Starts > 1:
			return "M" + t.Size + "xPh" + lead + "P" + pitch
		case t.Series.Key == "M" && t.Listed:
			return "M" + t.Size
		}
		return "M" + t.Size + "x" + pitch
	case "Tr":
		if t.Starts > 1 {
			return "Tr" + t.Size + "x" + lead + "(P" + pitch + ")"
		}
		return "Tr" + t.Size + "x" + pitch
	case "Sq":
		return "Sq " + t.Size + "x" + pitch + many
	case "BA":
		return t.Size + "BA" + many
	case "G":
		return "G " + t.Size + many
	case "ME", "BSB":
		return t.Size + "x" + short(t.TPI) + " " + t.Series.Key + many
	}
	return t.Size + "-" + short(t.TPI) + " " + t.Series.Key + many
}

func short(x float64) string {
	s := strconv.FormatFloat(x, 'f', 6, 64)
	return strings.TrimRight(strings.TrimRight(s, "0"), ".")
}

// Lay puts the thread on a sheet: the leaves dia, pitch, starts and flank (half
// of the included angle), and from them lead, tpi, pitch_dia, root, bore,
// nut_major, depth, lead_angle and stress_area.
func (t Thread) Lay(sc *sheet.Scope) {
	note := t.Series.Source
	if !t.Listed {
		note = "as typed; no size of " + t.Series.Label
	}
	chosen := func(q sheet.Q, v float64) {
		sc.Measure(q, sheet.Leaf{Value: v, Origin: sheet.Chosen, Note: note})
	}
	f := t.Series.Form
	chosen(mm("dia", "major diameter", "d"), t.Dia)
	chosen(mm("pitch", "pitch", "P"), t.Pitch)
	chosen(sheet.Q{Key: "starts", Label: "starts", Symbol: "z", Unit: unit.Count, Whole: true}, float64(t.Starts))
	sc.Measure(sheet.Q{Key: "flank", Label: "half of the flank angle", Symbol: "α", Unit: unit.Degree, Decimals: 2},
		sheet.Leaf{Value: unit.Degree.Inside(f.Angle / 2), Origin: sheet.Chosen, Note: f.Label})
	sc.Method(mm("lead", "lead", "l"), Lead)
	sc.Formula(sheet.Q{Key: "tpi", Label: "threads to the inch", Symbol: "n", Unit: unit.One, Decimals: 3}, "mm(25.4) / pitch", "definition: 25.4 mm to the inch")
	if f.CrestClearance.Text != "" {
		sc.Method(mm("crest_clearance", "clearance at the crest", "a_c"), f.CrestClearance)
	}
	sc.Method(mm("pitch_dia", "pitch diameter", "d2"), f.PitchDia)
	sc.Method(mm("root", "root diameter of the screw", "d3"), f.Root)
	sc.Method(mm("bore", "minor diameter of the nut", "D1"), f.Bore)
	sc.Method(mm("nut_major", "major diameter of the nut", "D4"), f.NutMajor)
	sc.Method(mm("depth", "depth of the screw's thread, on the radius", "h3"), Depth)
	sc.Method(sheet.Q{Key: "lead_angle", Label: "lead angle", Symbol: "λ", Unit: unit.Degree, Decimals: 2}, LeadAngle)
	sc.Method(sheet.Q{Key: "stress_area", Label: "stress area", Symbol: "A_s", Unit: unit.MM2, Decimals: 2}, f.StressArea)
}

func mm(key, label, symbol string) sheet.Q {
	return sheet.Q{Key: key, Label: label, Symbol: symbol, Unit: unit.MM, Decimals: 3}
}

// Basic are the diameters of the basic profile in mm, and the stress area in mm².
type Basic struct{ PitchDia, Root, Bore, NutMajor, Depth, StressArea float64 }

// Basic works the formulas of [Thread.Lay] out.
func (t Thread) Basic() (Basic, error) {
	s := sheet.New()
	t.Lay(s.Root())
	r, err := s.Bind()
	if err != nil {
		return Basic{}, fmt.Errorf("%s: %w", t, err)
	}
	v := func(key string) float64 { return r.Value(key, sheet.Planned) }
	return Basic{v("pitch_dia"), v("root"), v("bore"), v("nut_major"), v("depth"), v("stress_area")}, nil
}
