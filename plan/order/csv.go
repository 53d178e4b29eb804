package order

import (
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"

	"fettle/plan/unit"
)

// WriteBuyCSV writes the buy list as comma-separated values: UTF-8, a header,
// lines ended and cells quoted by RFC 4180. A cell that a spreadsheet would take
// for a formula begins with an apostrophe, which it then shows as text.
func WriteBuyCSV(w io.Writer, list List) error {
	rows := [][]string{{"what", "designation", "quantity", "of them sure now", "still to get", "for", "confirm after", "state", "price of one",
		"currency", "price as typed", "note", "source"}}
	for _, l := range list.Lines {
		var uses []string
		for _, u := range l.Uses {
			use := fmt.Sprintf("%d for %s", u.Quantity, u.For)
			if u.Upgrade != "" {
				use += " (" + u.Upgrade + ")"
			}
			uses = append(uses, use)
		}
		notes := append([]string{}, l.Notes...)
		if l.Dropped {
			notes = append(notes, "no longer needed")
		}
		notes = appendNew(notes, l.Problem)
		notes = appendNew(notes, l.Mark.Note)
		rows = append(rows, []string{l.Label, l.Designation, strconv.Itoa(l.Quantity), strconv.Itoa(l.Sure()), strconv.Itoa(l.Short()),
			strings.Join(uses, "; "), strings.Join(l.Confirm(), "; "), string(l.Mark.State), l.Mark.Price.Amount(), l.Mark.Price.Currency,
			l.Mark.Price.Text, strings.Join(notes, "; "), l.Source})
	}
	return writeCSV(w, rows)
}

// WriteCutCSV writes the cut list in the same way: lengths in mm, the mass in kg.
func WriteCutCSV(w io.Writer, blanks []Blank) error {
	rows := [][]string{{"part", "material", "section", "system", "length mm", "how many", "parts from each", "mass kg", "waits for", "note"}}
	for _, b := range blanks {
		row := []string{b.Label, b.Material.Name, "", "", "", strconv.Itoa(b.Count), strconv.Itoa(b.Pieces), "", strings.Join(b.Waits, "; "),
			strings.Join(appendNew(append([]string{}, b.Notes...), b.Problem), "; ")}
		if b.Problem == "" {
			row[2], row[3] = b.Section.String(), string(b.Section.System)
			row[4] = strconv.FormatFloat(b.Length, 'f', 1, 64)
			row[7] = strconv.FormatFloat(unit.Kilogram.In(b.Mass), 'f', 3, 64)
		}
		rows = append(rows, row)
	}
	return writeCSV(w, rows)
}

func writeCSV(w io.Writer, rows [][]string) error {
	out := csv.NewWriter(w)
	out.UseCRLF = true
	for _, row := range rows {
		for i, cell := range row {
			row[i] = plainCell(cell)
		}
		if err := out.Write(row); err != nil {
			return fmt.Errorf("write line: %w", err)
		}
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return fmt.Errorf("write: %w", err)
	}
	return nil
}

// plainCell keeps a cell from being taken for a formula, also where blanks or
// signs that do not show come first, and from holding what is no text.
func plainCell(s string) string {
	s = strings.ToValidUTF8(s, "\uFFFD")
	first := strings.TrimLeftFunc(s, func(r rune) bool { return unicode.IsSpace(r) || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) })
	if first != "" && strings.ContainsRune("=+-@＝＋－＠", []rune(first)[0]) || s != "" && strings.ContainsRune("\t\r\n", rune(s[0])) {
		return "'" + s
	}
	return s
}
