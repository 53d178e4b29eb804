package upgrade

import "strings"

// Find is replaced.
func Find(words string) []Kind {
	var out []Kind
	for _, k := range Kinds {
		a := k.About()
		if strings.Contains(strings.ToLower(a.Label+" "+a.Purpose+" "+strings.Join(a.Words, " ")), strings.ToLower(words)) {
			out = append(out, k)
		}
	}
	return out
}
