package browsertest

import (
	_ "embed" // the checker's text
	"fmt"
	"strings"

	"github.com/stretchr/testify/require"
)

// axe-core 4.14.1, under the Mozilla Public License 2.0: testdata/axe.LICENSE.
//
//go:embed testdata/axe.min.js
var axe string

// Colour are the rules of axe that look at colours: all that can differ between light and dark.
var Colour = []string{"color-contrast", "link-in-text-block"}

// violation is one rule that a page breaks, and where.
type violation struct {
	ID    string `json:"id"`
	Help  string `json:"help"`
	Nodes []struct {
		HTML    string `json:"html"`
		Summary string `json:"failureSummary"`
	} `json:"nodes"`
}

// Axe fails the test for every rule of accessibility that the page breaks as it stands: WCAG 2.2 A and
// AA, and good practice. With scripts off it cannot run.
func (tab *Tab) Axe() {
	tab.t.Helper()
	broken := tab.Faults()
	require.Empty(tab.t, broken, strings.Join(broken, "\n"))
}

// OnEveryScreen is [Tab.Axe] and [Tab.FitsWidth] for the page as it stands, at a desk and on a phone, in
// light and dark, each with a screenshot whose name begins with name. The page is not loaded anew, only
// looked at differently; what does not depend on colours is checked once for each width.
func (tab *Tab) OnEveryScreen(name string) {
	tab.t.Helper()
	for _, look := range []struct {
		screen Screen
		rules  []string
	}{
		{Screen{Width: 1280, Height: 800}, nil},
		{Screen{Width: 1280, Height: 800, Dark: true}, Colour},
		{Screen{Width: 360, Height: 740, Touch: true, Dark: true}, nil},
		{Screen{Width: 360, Height: 740, Touch: true}, Colour},
	} {
		tab.look(look.screen)
		at := fmt.Sprintf("%s-%d-dark-%t", name, look.screen.Width, look.screen.Dark)
		broken := tab.Faults(look.rules...)
		require.Empty(tab.t, broken, at+"\n"+strings.Join(broken, "\n"))
		tab.FitsWidth()
		tab.Screenshot(at + ".png")
	}
	tab.look(Screen{Width: 800, Height: 600}) // between the two
	tab.FitsWidth()
}

// Faults gives what [Tab.Axe] would fail for: rule, element and what is wrong, a text each. With names of
// rules it looks at these alone.
func (tab *Tab) Faults(rules ...string) []string {
	tab.t.Helper()
	tab.Wait("document.fonts.status === 'loaded'")
	var there bool
	if tab.Eval("typeof axe !== 'undefined'", &there); !there {
		tab.Eval("{"+axe+"}", nil)
	}
	options := `{resultTypes: ["violations"], rules: {"target-size": {enabled: true}}}`
	if rules != nil {
		options = fmt.Sprintf(`{resultTypes: ["violations"], runOnly: ["%s"]}`, strings.Join(rules, `", "`))
	}
	var broken []violation
	tab.Eval("axe.run(document, "+options+").then(result => result.violations)", &broken)
	var told []string
	for _, v := range broken {
		for _, node := range v.Nodes {
			told = append(told, fmt.Sprintf("%s: %s\n  %s\n  %s", v.ID, v.Help, node.HTML, node.Summary))
		}
	}
	return told
}
