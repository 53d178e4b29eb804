package web

import (
	"slices"

	"fettle/plan/axis"
	"fettle/web/ui"
)

// sheetObstacle is what may be met at an end.
type sheetObstacle struct {
	Key   string    `json:"key"`
	Label ui.Field  `json:"label"`
	End   ui.Choice `json:"end"`
	Clear ui.Tick   `json:"clear"`
	Gap   sheetRow  `json:"gap"`
	Own   bool      `json:"-"` // not one that is usual for the arrangement
}

func endOptions(a axis.Axis, is axis.End) []ui.Option {
	return chosen([]ui.Option{
		{Value: string(axis.Plus), Text: capital(a.EndName(axis.Plus)) + " end"},
		{Value: string(axis.Minus), Text: capital(a.EndName(axis.Minus)) + " end"}}, string(is))
}

func (w *sheetWriter) obstacle(o axis.Obstacle) sheetObstacle {
	arrangement, _ := axis.ArrangementNamed(w.axis.Arrangement)
	so := sheetObstacle{Key: o.Key,
		Label: ui.Field{Name: o.Key + ".label", Label: "What", Value: o.Label},
		End:   ui.Choice{Name: o.Key + ".end", Label: "At the", Options: endOptions(w.axis, o.End)},
		Clear: ui.Tick{Name: o.Key + ".clear", Label: "there is none, or it cannot be met", On: o.Clear},
		Gap:   w.row(o.Key+".", w.axis.AsksGap(), o.Gap),
		Own:   !slices.ContainsFunc(arrangement.Obstacles, func(u axis.Usual) bool { return u.Key == o.Key }),
	}
	if so.Clear.On {
		so.Gap.Origin = ""
	}
	return so
}
