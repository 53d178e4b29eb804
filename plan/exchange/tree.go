package exchange

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"
)

// sort is what a JSON value is; absent is the value of a member that is not there.
type sort byte

const (
	absent sort = iota
	object
	array
	text
	number
	boolean
	null
)

// value is a JSON value at its place in the file.
type value struct {
	sort    sort
	at      int    // offset of its first byte
	path    string // "machine.axes[0].key"
	text    string // of a text; of a number, its digits; of a boolean, "true" or ""
	items   []value
	members []member
}

type member struct {
	name string
	at   int // offset of the name
	value
}

// deepest is more than the five levels of a machine, and little enough for a stack.
const deepest = 64

// tree reads a whole file of JSON. What it returns as an error is a [*Fault].
func tree(file []byte) (value, error) {
	for at := 0; at < len(file); {
		r, size := utf8.DecodeRune(file[at:])
		if r == utf8.RuneError && size == 1 {
			return value{}, faultAt(file, at, "", "the file is not UTF-8 text")
		}
		at += size
	}
	b := builder{file: file, tokens: json.NewDecoder(bytes.NewReader(file))}
	b.tokens.UseNumber()
	var whole json.RawMessage
	errors.As(json.Unmarshal(file, &whole), &b.wrong)
	v, err := b.value("", 0)
	switch {
	case err != nil:
		return value{}, err
	case b.wrong != nil:
		return value{}, faultAt(file, int(b.wrong.Offset)-1, "", "this is not JSON: "+b.wrong.Error())
	}
	return v, nil
}

type builder struct {
	file   []byte
	tokens *json.Decoder
	wrong  *json.SyntaxError // nil: the whole is JSON. The decoder's own tells no offset in the file
}

// next is the offset of the token that follows.
func (b *builder) next() int {
	at := int(b.tokens.InputOffset())
	return at + len(b.file[at:]) - len(bytes.TrimLeft(b.file[at:], " \t\r\n,:"))
}

func (b *builder) value(path string, depth int) (value, error) {
	v := value{at: b.next(), path: path}
	if depth > deepest {
		return v, faultAt(b.file, v.at, path, "nested too deeply")
	}
	token, err := b.token(path)
	if err != nil {
		return v, err
	}
	switch t := token.(type) {
	case json.Delim:
		if t == '{' {
			v.sort = object
			return v, b.fillObject(&v, depth)
		}
		v.sort = array
		return v, b.fillArray(&v, depth)
	case string:
		v.sort, v.text = text, t
	case json.Number:
		v.sort, v.text = number, t.String()
	case bool:
		v.sort = boolean
		if t {
			v.text = "true"
		}
	default:
		v.sort = null
	}
	return v, nil
}

func (b *builder) fillObject(v *value, depth int) error {
	for b.tokens.More() {
		at := b.next()
		token, err := b.token(v.path)
		if err != nil {
			return err
		}
		name, ok := token.(string)
		if !ok {
			return faultAt(b.file, at, v.path, "give the name of a member in quotation marks")
		}
		inner, err := b.value(joined(v.path, name), depth+1)
		if err != nil {
			return err
		}
		v.members = append(v.members, member{name, at, inner})
	}
	_, err := b.token(v.path)
	return err
}

func (b *builder) fillArray(v *value, depth int) error {
	for b.tokens.More() {
		inner, err := b.value(fmt.Sprintf("%s[%d]", v.path, len(v.items)), depth+1)
		if err != nil {
			return err
		}
		v.items = append(v.items, inner)
	}
	_, err := b.token(v.path)
	return err
}

// token gives the next token, or a fault inside the value at path.
func (b *builder) token(path string) (json.Token, error) {
	token, err := b.tokens.Token()
	if err == nil {
		return token, nil
	}
	if b.wrong == nil || errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		return nil, faultAt(b.file, len(b.file), path, "the file ends before the machine does")
	}
	return nil, faultAt(b.file, int(b.wrong.Offset)-1, path, "this is not JSON: "+b.wrong.Error())
}

// joined is the path of a member: with a dot after a plain name, else with the name in brackets.
func joined(path, name string) string {
	switch {
	case !isKey(name):
		return fmt.Sprintf("%s[%q]", path, name)
	case path == "":
		return name
	}
	return path + "." + name
}
