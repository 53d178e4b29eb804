// Package reading holds what readings on a machine say: how well an axis finds
// its positions (ISO 230-2), how straight and square it runs (ISO 230-1), how
// uncertain a reading is (JCGM 100), and whether a difference between before and
// after is real.
//
// Readings go onto a sheet as leaves, and all figures are formulas of them:
//
//	s := sheet.New()
//	reading.Positioning{Up: up, Down: down, Resolution: 0.001}.Lay(s.Root())
//	r, err := s.Bind()
//	r.Figure("accuracy", sheet.Planned)   // A of ISO 230-2
//
// Lists are typed as rows of numbers ([Rows]): "1 0 2 1 0; -1 0 -1 -1 -1".
//
// The scatter of readings is the sample standard deviation, over n − 1. A reading
// is known no better than its resolution: leaves carry a rectangular spread of half
// a step, and a scatter below that of the steps is not believed ([Scatter]).
//
// The formulas of ISO 230-2 are from memory, since its text is not free; they are
// the ones that instrument makers' handbooks give, and were checked by an
// independent computation.
package reading
