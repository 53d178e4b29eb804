// Package demo holds the machines that come with the program. They are
// invented, and have no other purpose than to be tried.
//
// The lathe shows a wish that can be granted, and everything that follows from
// it; the mill shows a drive of the other sort, and a wish that no answer has.
// Each comes a second time with all its axes and a whole project on them.
package demo

import (
	"bytes"
	"embed"
	"fmt"

	"fettle/plan/exchange"
	"fettle/plan/machine"
)

//go:embed *.json
var files embed.FS

// Machine is one machine that comes with the program.
type Machine struct {
	Key string // "lathe"
	machine.Machine
}

// Machines lists them, each a copy of its own.
func Machines() []Machine {
	return []Machine{{"lathe", Lathe()}, {"mill", Mill()}, {"lathe_project", LatheProject()}, {"mill_project", MillProject()}}
}

// Lathe is a bench lathe of 105 mm centre height, with its cross slide.
func Lathe() machine.Machine { return read("lathe.json") }

// Mill is a bench mill with its Y axis, and its column.
func Mill() machine.Machine { return read("mill.json") }

// LatheProject is the lathe with its top slide, tailstock and carriage as well,
// and fifteen upgrades, three of them fitted.
func LatheProject() machine.Machine { return read("lathe_project.json") }

// MillProject is the mill with its table's long axis and its head as well, and
// seven upgrades.
func MillProject() machine.Machine { return read("mill_project.json") }

// File is the exchange file of a machine, by its key.
func File(key string) ([]byte, error) { return files.ReadFile(key + ".json") }

// read panics on a file that cannot be read: it is part of the program.
func read(name string) machine.Machine {
	file, err := files.ReadFile(name)
	if err != nil {
		panic(err)
	}
	m, err := exchange.Read(bytes.NewReader(file))
	if err != nil {
		panic(fmt.Errorf("%s: %w", name, err))
	}
	return m.Machine
}
