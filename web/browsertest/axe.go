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

// Faults gives what [Tab.Axe] would fail for: rule, element and what is wrong, a text each.
func (tab *Tab) Faults() []string {
	tab.t.Helper()
	tab.Wait("document.fonts.status === 'loaded'")
	tab.Eval("{"+axe+"}", nil)
	var broken []violation
	tab.Eval(`axe.run(document, {
		resultTypes: ["violations"],
		rules: {"target-size": {enabled: true}},
	}).then(result => result.violations)`, &broken)
	var told []string
	for _, v := range broken {
		for _, node := range v.Nodes {
			told = append(told, fmt.Sprintf("%s: %s\n  %s\n  %s", v.ID, v.Help, node.HTML, node.Summary))
		}
	}
	return told
}
