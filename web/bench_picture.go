package web

import (
	"bytes"

	"fettle/plan/bench"
	"fettle/plan/drawing"
	"fettle/web/ui"
)

// benchPicture is what a picture says better than figures. The zero value is none.
type benchPicture struct {
	Frame ui.Picture
	svg   []byte
}

func benchPictureOf(c *bench.Calculation) benchPicture {
	d, caption := drawing.Bench(c)
	if d == nil {
		return benchPicture{}
	}
	var svg bytes.Buffer
	if err := d.SVG(&svg); err != nil {
		return benchPicture{} // the figures say it all
	}
	return benchPicture{svg: svg.Bytes(), Frame: ui.Picture{Label: d.Title, Caption: caption}}
}
