package fastener

import (
	_ "embed"
	"slices"
	"strings"

	"fettle/plan/table"
)

// Screw is a size of a cap, hexagon or grub screw, with ISO coarse thread.
type Screw struct {
	Standard string  // "ISO 4762"
	Size     string  // "M6"
	Dia      float64 // of the thread
	Head     float64 // diameter of a smooth head, or across the corners; 0 for a grub screw
	HeadMost float64 // of a knurled head: what a counterbore has to clear
	Height   float64 // of the head; 0 for a grub screw
	Key      float64 // across the flats, of the socket or of the spanner
	Point    float64 // largest diameter of a grub screw's point
	Full     float64 // longest that is threaded up to its head; 0 where all are
	Thread   float64 // length of thread of those above Full; 0 where all are threaded
	Shortest float64
	Longest  float64
}

//go:embed screws.csv
var screwTable string

var screws = func() (all []Screw) {
	for _, r := range table.Rows(screwTable) {
		all = append(all, Screw{
			Standard: r["standard"], Size: r["size"], Dia: r.Number("dia"),
			Head: r.Number("head"), HeadMost: r.Number("head_most"), Height: r.Number("height"),
			Key: r.Number("key"), Point: r.Number("point"), Full: r.Number("full"), Thread: r.Number("thread"),
			Shortest: r.Number("shortest"), Longest: r.Number("longest"),
		})
	}
	return all
}()

// Screws are the sizes of a standard, the smallest first.
func Screws(standard string) (all []Screw) {
	for _, s := range screws {
		if s.Standard == standard {
			all = append(all, s)
		}
	}
	return all
}

// ScrewNamed is the screw of a standard and a size, such as "ISO 4762" and "M6".
func ScrewNamed(standard, size string) (Screw, bool) {
	i := slices.IndexFunc(screws, func(s Screw) bool { return s.Standard == standard && s.Size == size })
	if i < 0 {
		return Screw{}, false
	}
	return screws[i], true
}

// preferred are the lengths of screws that ISO 888 prefers.
var preferred = []float64{2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100,
	110, 120, 130, 140, 150, 160, 180, 200}

// Lengths are those in which the screw is made.
func (s Screw) Lengths() []float64 { return within(preferred, s.Shortest, s.Longest) }

// Designation names a screw of the length: "ISO 4762 M6 × 30".
func (s Screw) Designation(length float64) string {
	return s.Standard + " " + s.Size + " × " + bare(length)
}

// Grub tells whether the screw has no head.
func (s Screw) Grub() bool { return s.Head == 0 }

func (s Screw) what() string {
	std, _ := StandardNamed(s.Standard)
	name, point, _ := strings.Cut(std.Label, ", ")
	if point != "" {
		name += " with a " + point
	}
	return s.Size + " " + name + " (" + s.Standard + ")"
}

// Length is the shortest that the screw is made in from least to most, for a
// grub screw. It returns [ErrAsked] or a [*NoLength].
func (s Screw) Length(least, most float64) (float64, error) {
	return between(s.Lengths(), least, most, &NoLength{What: s.what()})
}
