package store

import (
	"context"
	"database/sql"
	"slices"

	"fettle/plan/upgrade"
)

// MoveUpgrade gives an upgrade its place among those of the machine, 0 the first. Finished ones stay
// before those that are not: a place beyond is taken for the nearest that is allowed.
func (s *Store) MoveUpgrade(ctx context.Context, machineID int64, upgradeID string, place int) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := s.count(ctx, tx, machineID, counts); err != nil {
			return err
		}
		found := false
		err := arrange(ctx, tx, machineID, func(list []placed) []placed {
			from := slices.IndexFunc(list, func(p placed) bool { return p.publicID == upgradeID && !p.deleted })
			if found = from >= 0; !found {
				return list
			}
			moved := list[from]
			list = slices.Delete(list, from, from+1)
			to := 0
			for before := 0; to < len(list) && (before < place || list[to].deleted); to++ {
				if !list[to].deleted {
					before++
				}
			}
			return slices.Insert(list, to, moved)
		})
		if err == nil && !found {
			return notFound("upgrade", upgradeID)
		}
		return err
	})
}

// placed is an upgrade, as its order is concerned.
type placed struct {
	id, position int64
	publicID     string
	state        upgrade.State
	deleted      bool // keeps its place, to be restored to
}

func (p placed) group() int {
	if p.state == upgrade.Finished {
		return 0
	}
	return 1
}

func asTheyAre(list []placed) []placed { return list }

// arrange gives the upgrades of a machine the order in which change puts them, the finished ones first.
func arrange(ctx context.Context, tx *sql.Tx, machineID int64, change func([]placed) []placed) error {
	const query = `
		SELECT id, position, public_id, state, deleted_at IS NOT NULL
		FROM upgrade
		WHERE machine_id = ?
		ORDER BY position, id`
	var list []placed
	err := each(ctx, tx, query, machineID, func(rows *sql.Rows) error {
		var p placed
		err := rows.Scan(&p.id, &p.position, &p.publicID, &p.state, &p.deleted)
		list = append(list, p)
		return err
	})
	if err != nil {
		return err
	}
	list = change(list)
	slices.SortStableFunc(list, func(a, b placed) int { return a.group() - b.group() })
	for i, p := range list {
		if p.position == int64(i) {
			continue
		}
		if _, err := tx.ExecContext(ctx, `UPDATE upgrade SET position = ? WHERE id = ?`, i, p.id); err != nil {
			return err
		}
	}
	return nil
}
