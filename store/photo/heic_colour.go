package photo

import (
	"encoding/binary"
	"io"
)

// coloursOfHEIC reads what a HEIC says of the colours of its chief picture: a profile, or else code points.
//
// Source: ISO/IEC 14496-12 8.11.4 (pitm), 8.11.12 (iref), 8.11.14 (iprp, ipco, ipma), 12.1.5 (colr).
func coloursOfHEIC(file io.ReaderAt) *colours {
	meta, err := box(io.NewSectionReader(file, 0, MostBytes), "meta")
	if err != nil || len(meta) < 4 {
		return nil
	}
	var profile, codes []byte
	for _, colr := range chiefColours(meta[4:]) {
		switch string(colr[:4]) {
		case "prof", "rICC":
			profile = colr[4:]
		case "nclx":
			codes = colr[4:]
		}
	}
	switch {
	case profile != nil:
		return fromICC(profile)
	case len(codes) >= 4:
		return fromCodes(int(binary.BigEndian.Uint16(codes)), int(binary.BigEndian.Uint16(codes[2:])))
	}
	return nil
}

// chiefColours gives what is said of the colours of the chief picture, each of 4 bytes at least. Of one that is
// laid together from tiles, phones say it at these alone, which are all alike.
func chiefColours(meta []byte) [][]byte {
	var item uint64
	var properties []property
	var links, references []byte
	for kind, content := range boxes(meta) {
		switch kind {
		case "pitm":
			item = chiefItem(content)
		case "iprp":
			properties, links = propertyBoxes(content)
		case "iref":
			references = content
		}
	}
	if found := coloursOfItem(properties, links, item); len(found) > 0 {
		return found
	}
	return coloursOfItem(properties, links, firstTile(references, item))
}

// firstTile is the first picture that another is made from; 0: there is none.
func firstTile(iref []byte, item uint64) uint64 {
	if len(iref) < 4 {
		return 0
	}
	idSize := 2
	if iref[0] >= 1 {
		idSize = 4
	}
	for kind, content := range boxes(iref[4:]) {
		rest := cursor(content)
		if from, count := rest.take(idSize), rest.take(2); kind == "dimg" && from == item && count > 0 {
			return rest.take(idSize)
		}
	}
	return 0
}

func coloursOfItem(properties []property, links []byte, item uint64) (found [][]byte) {
	for _, place := range propertiesOf(links, item) {
		if place < 1 || place > len(properties) {
			continue
		}
		if p := properties[place-1]; p.kind == "colr" && len(p.content) >= 4 {
			found = append(found, p.content)
		}
	}
	return found
}

// property is one of a HEIC's pictures, named by its place among all of them.
type property struct {
	kind    string
	content []byte
}

// propertyBoxes gives the properties of all pictures, and the box that says which belong to which.
func propertyBoxes(iprp []byte) (properties []property, links []byte) {
	for kind, content := range boxes(iprp) {
		switch kind {
		case "ipco":
			for kind, content := range boxes(content) {
				properties = append(properties, property{kind, content})
			}
		case "ipma":
			links = content
		}
	}
	return properties, links
}

// chiefItem reads which picture is the chief one.
func chiefItem(pitm []byte) uint64 {
	rest := cursor(pitm)
	if version := rest.take(4) >> 24; version == 0 {
		return rest.take(2)
	}
	return rest.take(4)
}

// propertiesOf gives the places, from 1, of the properties that belong to a picture.
func propertiesOf(ipma []byte, item uint64) (places []int) {
	rest := cursor(ipma)
	head := rest.take(4)
	idSize, placeSize := 2, 1
	if head>>24 >= 1 {
		idSize = 4
	}
	if head&1 != 0 {
		placeSize = 2
	}
	for left := rest.take(4); left > 0 && len(rest) > 0; left-- {
		is := rest.take(idSize)
		for range rest.take(1) {
			place := rest.take(placeSize) &^ (1 << (8*placeSize - 1)) // the first bit: without it the picture cannot be shown
			places = append(places, int(place))
		}
		if is == item {
			return places
		}
		places = places[:0]
	}
	return nil
}

// cursor is what is left to be read.
type cursor []byte

// take reads a number of so many bytes; 0 where there are not so many.
func (c *cursor) take(n int) (v uint64) {
	if len(*c) < n {
		*c = nil
		return 0
	}
	for _, b := range (*c)[:n] {
		v = v<<8 | uint64(b)
	}
	*c = (*c)[n:]
	return v
}
