package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"maps"

	"fettle/plan"
	"fettle/plan/axis"
)

// measured are the axes of a machine, and the revision of each by its key.
type measured struct {
	axes      []axis.Axis
	revisions map[string]int64
}

// axesAt gives the axes of a machine that is at the count of changes. They change only together with it.
func (s *Store) axesAt(ctx context.Context, tx *sql.Tx, machineID, changes int64) ([]axis.Axis, map[string]int64, error) {
	m, ok := s.axes.at(machineID, changes)
	if !ok {
		var err error
		if m.axes, m.revisions, err = axesOf(ctx, tx, machineID); err != nil {
			return nil, nil, err
		}
		s.axes.keep(machineID, changes, m)
	}
	return copied(m.axes), maps.Clone(m.revisions), nil
}

// axesOf reads the axes of a machine, and the revision of each by its key: one query a table, leaves
// first, so that each row is put together once.
func axesOf(ctx context.Context, tx *sql.Tx, machineID int64) (axes []axis.Axis, revisions map[string]int64, err error) {
	entries, err := entriesOf(ctx, tx, machineID)
	if err != nil {
		return nil, nil, err
	}
	answers, err := answersOf(ctx, tx, machineID)
	if err != nil {
		return nil, nil, err
	}
	parts, err := partsOf(ctx, tx, machineID, entries)
	if err != nil {
		return nil, nil, err
	}
	obstacles, err := obstaclesOf(ctx, tx, machineID, entries)
	if err != nil {
		return nil, nil, err
	}
	const query = `
		SELECT id, key, label, arrangement, capacity, datum, plus_label, minus_label, revision
		FROM axis
		WHERE machine_id = ? AND deleted_at IS NULL
		ORDER BY position, id`
	revisions = map[string]int64{}
	err = each(ctx, tx, query, machineID, func(rows *sql.Rows) error {
		var a axis.Axis
		var id, revision int64
		err := rows.Scan(&id, &a.Key, &a.Label, &a.Arrangement, &a.Capacity, &a.Datum, &a.Plus, &a.Minus, &revision)
		a.Parts, a.Obstacles = parts[id], obstacles[id]
		a.Entries, a.Answers = orEmpty(entries[owner{axis: id}]), orEmpty(answers[id])
		axes = append(axes, a)
		revisions[a.Key] = revision
		return err
	})
	return axes, revisions, err
}

func orEmpty[V any](m map[string]V) map[string]V {
	if m == nil {
		return map[string]V{}
	}
	return m
}

func entriesOf(ctx context.Context, tx *sql.Tx, machineID int64) (map[owner]map[string]plan.Entry, error) {
	const query = `
		SELECT axis_id, ifnull(part_id, 0), ifnull(obstacle_id, 0),
			entry.key, typed, spread, instrument, taken_on, origin, note
		FROM entry JOIN axis ON axis.id = axis_id
		WHERE machine_id = ? AND deleted_at IS NULL`
	entries := map[owner]map[string]plan.Entry{}
	err := each(ctx, tx, query, machineID, func(rows *sql.Rows) error {
		var of owner
		var key string
		var e plan.Entry
		err := rows.Scan(&of.axis, &of.part, &of.obstacle, &key, &e.Typed, &e.Spread, &e.With, &e.On, &e.Origin, &e.Note)
		put(entries, of, key, e)
		return err
	})
	return entries, err
}

func answersOf(ctx context.Context, tx *sql.Tx, machineID int64) (map[int64]map[string]string, error) {
	const query = `
		SELECT axis_id, answer.key, value
		FROM answer JOIN axis ON axis.id = axis_id
		WHERE machine_id = ? AND deleted_at IS NULL`
	answers := map[int64]map[string]string{}
	err := each(ctx, tx, query, machineID, func(rows *sql.Rows) error {
		var of int64
		var key, value string
		err := rows.Scan(&of, &key, &value)
		put(answers, of, key, value)
		return err
	})
	return answers, err
}

func put[K comparable, V any](all map[K]map[string]V, of K, key string, value V) {
	if all[of] == nil {
		all[of] = map[string]V{}
	}
	all[of][key] = value
}

func partsOf(ctx context.Context, tx *sql.Tx, machineID int64, entries map[owner]map[string]plan.Entry) (map[int64][]axis.Part, error) {
	const query = `
		SELECT axis_id, part.id, part.key, part.label, role, side, tie_part, tie_face, lanes, material
		FROM part JOIN axis ON axis.id = axis_id
		WHERE machine_id = ? AND deleted_at IS NULL
		ORDER BY axis_id, part.position`
	parts := map[int64][]axis.Part{}
	err := each(ctx, tx, query, machineID, func(rows *sql.Rows) error {
		var of, id int64
		var p axis.Part
		var tiePart, tieFace, lanes sql.NullString
		err := rows.Scan(&of, &id, &p.Key, &p.Label, &p.Role, &p.Side, &tiePart, &tieFace, &lanes, &p.Material)
		if err != nil {
			return err
		}
		if tiePart.Valid {
			p.Tie = &axis.Tie{Part: tiePart.String, Face: tieFace.String}
		}
		if lanes.Valid {
			if err := json.Unmarshal([]byte(lanes.String), &p.Lanes); err != nil {
				return fmt.Errorf("lanes of part %s: %w", p.Key, err)
			}
		}
		p.Entries = orEmpty(entries[owner{axis: of, part: id}])
		parts[of] = append(parts[of], p)
		return nil
	})
	return parts, err
}

func obstaclesOf(ctx context.Context, tx *sql.Tx, machineID int64, entries map[owner]map[string]plan.Entry) (map[int64][]axis.Obstacle, error) {
	const query = `
		SELECT axis_id, obstacle.id, obstacle.key, obstacle.label, at_end, clear
		FROM obstacle JOIN axis ON axis.id = axis_id
		WHERE machine_id = ? AND deleted_at IS NULL
		ORDER BY axis_id, obstacle.position`
	obstacles := map[int64][]axis.Obstacle{}
	err := each(ctx, tx, query, machineID, func(rows *sql.Rows) error {
		var of, id int64
		var o axis.Obstacle
		err := rows.Scan(&of, &id, &o.Key, &o.Label, &o.End, &o.Clear)
		o.Gap = entries[owner{axis: of, obstacle: id}][gapKey]
		obstacles[of] = append(obstacles[of], o)
		return err
	})
	return obstacles, err
}
