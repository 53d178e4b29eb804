package sheet_test

import (
	"fmt"

	"fettle/plan/sheet"
	"fettle/plan/unit"
)

// A bracket is made longer, and its reach follows.
func Example() {
	s := sheet.New()
	sc := s.Root().In("bracket")
	sc.Measure(sheet.Q{Key: "length", Label: "bracket length", Symbol: "L", Unit: unit.MM},
		sheet.Leaf{Value: 26, Origin: sheet.Measured, Spread: sheet.Within(0.05)})
	sc.Formula(sheet.Q{Key: "reach", Label: "reach", Unit: unit.MM}, "length + mm(0.5)", "geometry")
	s.Reached(sheet.Now)
	s.Upgrade("longer bracket")
	sc.Change("length", "was + mm(10.5)", "decided")
	r, err := s.Bind()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, k := range r.KnockOns() {
		fmt.Println(k.Label, k.Now.Text(k.Now.Value), "→", k.Text(k.Now.Value))
		for _, c := range k.Children {
			fmt.Println("  "+c.Label, c.Now.Text(c.Now.Value), "→", c.Text(c.Now.Value))
		}
	}
	e, _ := r.Explain("bracket.reach", sheet.Planned)
	fmt.Println(e.Formula, "=", e.Numbers, "=", e.Text(e.Value), e.TextPlusMinus(r.Uncertainty("bracket.reach", sheet.Planned)))
	// Output:
	// bracket length 26 mm → 36.5 mm
	//   reach 26.5 mm → 37 mm
	// L + 0.5 mm = 36.5 + 0.5 mm = 37 mm ± 0.05
}
