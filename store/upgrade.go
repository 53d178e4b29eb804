package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"maps"

	"fettle/plan/upgrade"
)

// SaveUpgrade keeps an upgrade as it was typed: in place of the one with its ID, which must be at the
// revision; or, with ID "" and revision 0, as a new one, last among those not finished, under an ID that
// no upgrade of the machine has had. It gives what is stored, with the ID, and its revision, or a
// *[StaleError] of upgrade.Upgrade.
//
// A draft is saved without the machine's count of changes going up: it does not count in the plan.
func (s *Store) SaveUpgrade(ctx context.Context, machineID, revision int64, u upgrade.Upgrade) (upgrade.Upgrade, int64, error) {
	var row int64
	err := s.write(ctx, func(tx *sql.Tx) (err error) {
		if u.ID == "" {
			if err := s.count(ctx, tx, machineID, weightOf(u.State)); err != nil {
				return err
			}
			if u.ID, err = addUpgrade(ctx, tx, machineID, last, u); err != nil {
				return err
			}
			return arrange(ctx, tx, machineID, asTheyAre)
		}
		was, err := s.upgradeAt(ctx, tx, machineID, u.ID, revision)
		if err != nil {
			return err
		}
		row = was.id
		if err := s.count(ctx, tx, machineID, max(weightOf(was.state), weightOf(u.State))); err != nil {
			return err
		}
		return s.replaceUpgrade(ctx, tx, machineID, was, u)
	})
	if err != nil {
		return upgrade.Upgrade{}, 0, err
	}
	if row != 0 {
		s.typed.keep(row, revision+1, typedFor(u))
	}
	return u, revision + 1, nil
}

// SetUpgradeState says how far an upgrade has got, which must be at the revision, and on which day it
// was finished, or "". It gives the new revision, or a *[StaleError] of upgrade.Upgrade. A finished
// upgrade goes before all that are not.
func (s *Store) SetUpgradeState(ctx context.Context, machineID int64, upgradeID string, revision int64, state upgrade.State, on string) (int64, error) {
	const query = `UPDATE upgrade SET state = ?, finished_on = ?, revision = revision + 1 WHERE id = ?`
	err := s.write(ctx, func(tx *sql.Tx) error {
		was, err := s.upgradeAt(ctx, tx, machineID, upgradeID, revision)
		if err != nil {
			return err
		}
		if err := s.count(ctx, tx, machineID, counts); err != nil {
			return err
		}
		if _, err := tx.ExecContext(ctx, query, state, on, was.id); err != nil {
			return fmt.Errorf("upgrade %s: %w", upgradeID, err)
		}
		return arrange(ctx, tx, machineID, asTheyAre)
	})
	return revision + 1, err
}

// DeleteUpgrade takes an upgrade off the machine, for [Store.RestoreUpgrade] to bring back.
func (s *Store) DeleteUpgrade(ctx context.Context, machineID int64, upgradeID string) error {
	const query = `UPDATE upgrade SET deleted_at = ? WHERE machine_id = ? AND public_id = ? AND deleted_at IS NULL`
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := s.count(ctx, tx, machineID, counts); err != nil {
			return err
		}
		return changeOne(ctx, tx, notFound("upgrade", upgradeID), query, s.now(), machineID, upgradeID)
	})
}

// RestoreUpgrade brings back a deleted upgrade as it was, to its place among the others. It returns
// [ErrNotFound] when its axis has been deleted meanwhile.
func (s *Store) RestoreUpgrade(ctx context.Context, machineID int64, upgradeID string) error {
	const query = `
		UPDATE upgrade SET deleted_at = NULL, revision = revision + 1
		WHERE machine_id = ? AND public_id = ? AND deleted_at IS NOT NULL
		RETURNING axis_key`
	return s.write(ctx, func(tx *sql.Tx) error {
		if err := s.count(ctx, tx, machineID, counts); err != nil {
			return err
		}
		var axisKey string
		err := tx.QueryRowContext(ctx, query, machineID, upgradeID).Scan(&axisKey)
		if errors.Is(err, sql.ErrNoRows) {
			return notFound("deleted upgrade", upgradeID)
		}
		if err != nil {
			return err
		}
		return hasAxis(ctx, tx, machineID, upgradeID, axisKey)
	})
}

func weightOf(s upgrade.State) weight {
	if s == upgrade.Draft {
		return drafted
	}
	return counts
}

// upgradesOf reads the upgrades of a machine in their order, and the revision of each by its ID.
func (s *Store) upgradesOf(ctx context.Context, tx *sql.Tx, machineID int64) (upgrades []upgrade.Upgrade, revisions map[string]int64, err error) {
	const query = `
		SELECT id, public_id, kind, axis_key, state, finished_on, revision
		FROM upgrade
		WHERE machine_id = ? AND deleted_at IS NULL
		ORDER BY position, id`
	revisions = map[string]int64{}
	var rows []int64
	err = each(ctx, tx, query, machineID, func(r *sql.Rows) error {
		var u upgrade.Upgrade
		var id, revision int64
		err := r.Scan(&id, &u.ID, &u.Kind, &u.Axis, &u.State, &u.On, &revision)
		upgrades, rows = append(upgrades, u), append(rows, id)
		revisions[u.ID] = revision
		return err
	})
	for i := range upgrades {
		if err != nil {
			break
		}
		var t typed
		t, err = s.typedAt(ctx, tx, rows[i], revisions[upgrades[i].ID])
		upgrades[i].Inputs, upgrades[i].Made = orEmpty(maps.Clone(t.inputs)), maps.Clone(t.made)
	}
	return upgrades, revisions, err
}

// storedUpgrade is an upgrade as it is stored.
type storedUpgrade struct {
	id    int64
	axis  string
	state upgrade.State
	typed
}

// upgradeAt finds an upgrade that is to be at the revision.
func (s *Store) upgradeAt(ctx context.Context, tx *sql.Tx, machineID int64, upgradeID string, revision int64) (was storedUpgrade, err error) {
	const query = `
		SELECT id, axis_key, state, revision
		FROM upgrade
		WHERE machine_id = ? AND public_id = ? AND deleted_at IS NULL`
	var is int64
	err = tx.QueryRowContext(ctx, query, machineID, upgradeID).Scan(&was.id, &was.axis, &was.state, &is)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return was, notFound("upgrade", upgradeID)
	case err != nil:
		return was, err
	case is == revision:
		was.typed, err = s.typedAt(ctx, tx, was.id, is)
		return was, err
	}
	upgrades, _, err := s.upgradesOf(ctx, tx, machineID)
	if err != nil {
		return was, err
	}
	for _, u := range upgrades {
		if u.ID == upgradeID {
			return was, &StaleError[upgrade.Upgrade]{"upgrade " + u.ID, u, is}
		}
	}
	return was, notFound("upgrade", upgradeID)
}

// last is a position after all that [arrange] gives.
const last = 1 << 40

func addUpgrade(ctx context.Context, tx *sql.Tx, machineID int64, position int, u upgrade.Upgrade) (upgradeID string, err error) {
	const query = `
		INSERT INTO upgrade (machine_id, position, public_id, kind, axis_key, state, finished_on, revision)
		VALUES (?1, ?2, ifnull(nullif(?3, ''), (
				SELECT CAST(ifnull(max(CAST(public_id AS INTEGER)), 0) + 1 AS TEXT)
				FROM upgrade
				WHERE machine_id = ?1)),
			?4, ?5, ?6, ?7, 1)
		RETURNING id, public_id`
	var id int64
	err = tx.QueryRowContext(ctx, query, machineID, position, u.ID, u.Kind, u.Axis, u.State, u.On).Scan(&id, &upgradeID)
	if err != nil {
		return "", fmt.Errorf("upgrade %s: %w", u.ID, err)
	}
	if err := hasAxis(ctx, tx, machineID, upgradeID, u.Axis); err != nil {
		return "", err
	}
	if err := (typed{}).addInputs(ctx, tx, id, u); err != nil {
		return "", err
	}
	return upgradeID, addMade(ctx, tx, id, u)
}

// replaceUpgrade writes only what is not stored so already: while somebody types, one input of many.
func (s *Store) replaceUpgrade(ctx context.Context, tx *sql.Tx, machineID int64, was storedUpgrade, u upgrade.Upgrade) error {
	const query = `
		UPDATE upgrade
		SET kind = ?, axis_key = ?, state = ?, finished_on = ?, revision = revision + 1
		WHERE id = ?`
	if _, err := tx.ExecContext(ctx, query, u.Kind, u.Axis, u.State, u.On, was.id); err != nil {
		return fmt.Errorf("upgrade %s: %w", u.ID, err)
	}
	if u.Axis != was.axis {
		if err := hasAxis(ctx, tx, machineID, u.ID, u.Axis); err != nil {
			return err
		}
	}
	if err := was.replace(ctx, tx, was.id, u); err != nil || u.State == was.state {
		return err
	}
	return arrange(ctx, tx, machineID, asTheyAre)
}

// hasAxis refuses an upgrade for an axis that the machine has not.
func hasAxis(ctx context.Context, tx *sql.Tx, machineID int64, upgradeID, key string) error {
	if key == "" {
		return nil
	}
	if _, _, err := axisAt(ctx, tx, machineID, key); err != nil {
		return fmt.Errorf("upgrade %s: %w", upgradeID, err)
	}
	return nil
}
