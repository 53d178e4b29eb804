package exchange

import (
	"bytes"
	"encoding/json"

	"fettle/plan"
	"fettle/plan/axis"
	"fettle/plan/buildlog"
	"fettle/plan/machine"
	"fettle/plan/upgrade"
)

// What the file says of itself.
const (
	Format  = "fettle machine"
	Version = 1
)

// File is what a file holds.
type File struct {
	machine.Machine
	Log []buildlog.Entry // the oldest first
}

// The shape of the file, as it is written. The doc of the package describes each member.
type (
	document struct {
		Format  string     `json:"format"`
		Version int        `json:"version"`
		Machine machineDoc `json:"machine"`
	}
	machineDoc struct {
		Name     string       `json:"name"`
		Kind     string       `json:"kind"`
		Units    string       `json:"units"`
		Note     string       `json:"note,omitempty"`
		Axes     []axisDoc    `json:"axes,omitempty"`
		Upgrades []upgradeDoc `json:"upgrades,omitempty"`
		Log      []loggedDoc  `json:"log,omitempty"`
	}
	axisDoc struct {
		Key         string              `json:"key"`
		Label       string              `json:"label"`
		Arrangement string              `json:"arrangement"`
		Capacity    string              `json:"capacity,omitempty"`
		Datum       string              `json:"datum,omitempty"`
		Plus        string              `json:"plus,omitempty"`
		Minus       string              `json:"minus,omitempty"`
		Entries     map[string]entryDoc `json:"entries,omitempty"`
		Answers     map[string]string   `json:"answers,omitempty"`
		Parts       []partDoc           `json:"parts,omitempty"`
		Obstacles   []obstacleDoc       `json:"obstacles,omitempty"`
	}
	partDoc struct {
		Key      string              `json:"key"`
		Label    string              `json:"label"`
		Role     string              `json:"role"`
		Side     axis.Side           `json:"side"`
		Tie      *tieDoc             `json:"tie,omitempty"`
		Lanes    []string            `json:"lanes,omitzero"` // nil is left out, none is []
		Material string              `json:"material,omitempty"`
		Entries  map[string]entryDoc `json:"entries,omitempty"`
	}
	tieDoc struct {
		Part string `json:"part"`
		Face string `json:"face"`
	}
	obstacleDoc struct {
		Key   string   `json:"key"`
		Label string   `json:"label"`
		End   axis.End `json:"end"`
		Gap   entryDoc `json:"gap,omitzero"`
		Clear bool     `json:"clear,omitempty"`
	}
	upgradeDoc struct {
		ID     string              `json:"id"`
		Kind   string              `json:"kind"`
		Axis   string              `json:"axis,omitempty"`
		State  upgrade.State       `json:"state"`
		On     string              `json:"on,omitempty"`
		Inputs map[string]string   `json:"inputs,omitempty"`
		Made   map[string]entryDoc `json:"made,omitempty"`
	}
	entryDoc  plan.Entry
	entryFull struct {
		Typed  string `json:"typed,omitempty"`
		Spread string `json:"spread,omitempty"`
		With   string `json:"with,omitempty"`
		On     string `json:"on,omitempty"`
		Origin string `json:"origin,omitempty"`
		Note   string `json:"note,omitempty"`
	}
)

// MarshalJSON writes a text where there is nothing but what was typed, else an object.
func (e entryDoc) MarshalJSON() ([]byte, error) {
	if e == (entryDoc{Typed: e.Typed}) {
		return marshal(e.Typed)
	}
	return marshal(entryFull{e.Typed, e.Spread, e.With, e.On, string(e.Origin), e.Note})
}

// marshal leaves <, > and & readable, as json.Marshal does not.
func marshal[T string | entryFull](v T) ([]byte, error) {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	return out.Bytes(), err
}

func documentOf(m File) document {
	return document{Format, Version, machineDoc{
		Name: m.Name, Kind: m.Kind, Units: m.Units, Note: m.Note,
		Axes: each(m.Axes, axisOf), Upgrades: each(m.Upgrades, upgradeOf), Log: each(m.Log, loggedOf),
	}}
}

func axisOf(a axis.Axis) axisDoc {
	return axisDoc{
		Key: a.Key, Label: a.Label, Arrangement: a.Arrangement, Capacity: a.Capacity,
		Datum: a.Datum, Plus: a.Plus, Minus: a.Minus,
		Entries: entriesOf(a.Entries), Answers: a.Answers,
		Parts: each(a.Parts, partOf), Obstacles: each(a.Obstacles, obstacleOf),
	}
}

func partOf(p axis.Part) partDoc {
	return partDoc{
		Key: p.Key, Label: p.Label, Role: p.Role, Side: p.Side, Tie: (*tieDoc)(p.Tie),
		Lanes: p.Lanes, Material: p.Material, Entries: entriesOf(p.Entries),
	}
}

func obstacleOf(o axis.Obstacle) obstacleDoc {
	return obstacleDoc{Key: o.Key, Label: o.Label, End: o.End, Gap: entryDoc(o.Gap), Clear: o.Clear}
}

func upgradeOf(u upgrade.Upgrade) upgradeDoc {
	return upgradeDoc{ID: u.ID, Kind: u.Kind, Axis: u.Axis, State: u.State, On: u.On, Inputs: u.Inputs, Made: entriesOf(u.Made)}
}

func entriesOf(entries map[string]plan.Entry) map[string]entryDoc {
	docs := make(map[string]entryDoc, len(entries))
	for key, e := range entries {
		docs[key] = entryDoc(e)
	}
	return docs
}

func each[A, B any](list []A, of func(A) B) []B {
	docs := make([]B, len(list))
	for i, a := range list {
		docs[i] = of(a)
	}
	return docs
}
