package exchange

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
)

// Write writes a machine and its log as a file that [Read] reads back as the same, but for the places where
// photos were taken: see [WriteWithPlaces]. The same machine gives the same bytes. Bytes that are no UTF-8
// become U+FFFD, the replacement character.
//
// A machine that no file may hold, such as one with the same key twice, is refused with the [*Fault]
// that its file would have, and nothing is written.
func Write(w io.Writer, m File) error {
	m.Log = withoutPlaces(m.Log)
	return WriteWithPlaces(w, m)
}

// WriteWithPlaces is [Write] for somebody who asked for the places where photos were taken to be in it.
func WriteWithPlaces(w io.Writer, m File) error {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(documentOf(m)); err != nil {
		return fmt.Errorf("write machine %s: %w", m.Name, err)
	}
	if _, err := Read(bytes.NewReader(out.Bytes())); err != nil {
		return fmt.Errorf("write machine %s: %w", m.Name, err)
	}
	_, err := w.Write(out.Bytes())
	return err
}
