package material

import "fettle/plan/sheet"

// Anodising turns the metal's own skin into oxide, which takes more room: part
// of the film stands out beyond the old surface, the rest lies below it.
var (
	// FilmGrowth is how far the surface moves out; share is the part of the film
	// that does.
	FilmGrowth = sheet.Method{Text: "film * share", Source: "definition: the part of the film that grows outward"}

	// FilmOnDiameter is by how much an outside grows, or a bore closes.
	FilmOnDiameter = sheet.Method{Text: "2 * growth", Source: "geometry: both sides of a diameter"}
)

// Film is a kind of anodising.
type Film struct {
	Key, Label string
	Share      float64 // of the film that grows outward
}

// Films lists the kinds; shares from memory, unchecked, within a fifth.
var Films = []Film{
	{"usual", "sulphuric, the usual one", 1.0 / 3},
	{"hard", "hard", 0.5},
}

// Figures of films.
const (
	FilmShareWithin = 0.2 // of the share
	FilmShareSource = "from memory, unchecked, within a fifth: a third of a usual film grows outward, half of a hard one"
)

// FilmCautions go with anodising at home.
var FilmCautions = []string{
	"Sulphuric acid burns: goggles, gloves and apron; always add acid to water, never water to acid, and keep soda and running water at hand.",
	"The bath gives off hydrogen, which explodes: work outdoors or in moving air, no flame and no spark, and switch off before a clip is touched.",
	"Take steel, brass and bronze out first, since the bath attacks them; mask seats and threads, or allow for the film.",
}
