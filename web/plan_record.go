package web

import "fettle/web/ui"

// recorded puts the inputs of an upgrade that is fitted into words: they are a record, and no fields.
func (v *planView) recorded() {
	add := func(row planRow) {
		line := ui.Input{Label: v.label(row.name())}
		if row.Field != nil {
			if line.Value = row.Field.Value; line.Value != "" && row.Field.Unit != "" {
				line.Value += " " + row.Field.Unit
			}
		} else {
			for _, o := range row.Choice.Options {
				if o.Chosen {
					line.Value = o.Text
				}
			}
		}
		v.Record = append(v.Record, line)
	}
	for row := range v.rows {
		add(row)
	}
	v.Top, v.Groups, v.Kept = nil, nil, nil
}

// isRecord tells whether the page is the record of an upgrade that is fitted.
func (v *planView) isRecord() bool { return v.Record != nil }
