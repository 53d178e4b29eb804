package web

import "fettle/web/ui"

// recorded puts the inputs of an upgrade that is fitted into words: they are a record, and no fields.
func (v *planView) recorded() {
	v.Record = []ui.Input{}
	add := func(rows []planRow) {
		for _, row := range rows {
			if value := v.recordedAs(row); value != "" {
				v.Record = append(v.Record, ui.Input{Label: v.label(row.name()), Value: value})
			}
		}
	}
	add(v.Top)
	add(v.Sizes)
	for _, g := range v.Groups {
		add(g.Rows)
		if g.Open { // the stop was shared between two remedies
			add(g.More)
		}
	}
	v.Top, v.Sizes, v.Groups, v.Kept = nil, nil, nil, nil
}

// recordedAs is an input as its record says it; "" where nothing was said.
func (v *planView) recordedAs(row planRow) string {
	if row.Choice != nil {
		for _, o := range row.Choice.Options {
			if o.Chosen {
				return o.Text
			}
		}
		return ""
	}
	if row.Field.Value == "" || row.Field.Unit == "" {
		return row.Field.Value
	}
	return row.Field.Value + " " + row.Field.Unit
}

// isRecord tells whether the page is the record of an upgrade that is fitted.
func (v *planView) isRecord() bool { return v.Record != nil }
