package store

import (
	"context"
	"database/sql"
	"fmt"
	"maps"

	"fettle/plan"
	"fettle/plan/upgrade"
)

// typed is what was typed for an upgrade. It changes only together with the upgrade's revision.
type typed struct {
	inputs map[string]string
	made   map[string]plan.Entry // nil where nothing is
}

func typedFor(u upgrade.Upgrade) typed {
	t := typed{inputs: maps.Clone(u.Inputs)}
	if len(u.Made) > 0 {
		t.made = maps.Clone(u.Made)
	}
	return t
}

// typedAt gives what was typed for the upgrade in the row with the ID, which is at the revision.
func (s *Store) typedAt(ctx context.Context, tx *sql.Tx, id, revision int64) (t typed, err error) {
	t, ok := s.typed.at(id, revision)
	if ok {
		return t, nil
	}
	if t.inputs, err = inputsOf(ctx, tx, id); err != nil {
		return t, err
	}
	if t.made, err = madeOf(ctx, tx, id); err != nil {
		return t, err
	}
	s.typed.keep(id, revision, t)
	return t, nil
}

func inputsOf(ctx context.Context, tx *sql.Tx, id int64) (map[string]string, error) {
	const query = `SELECT name, typed FROM upgrade_input WHERE upgrade_id = ?`
	inputs := map[string]string{}
	err := each(ctx, tx, query, id, func(rows *sql.Rows) error {
		var name, typed string
		err := rows.Scan(&name, &typed)
		inputs[name] = typed
		return err
	})
	return inputs, err
}

// replace puts what was typed for u in place of what is stored in the row with the ID.
func (was typed) replace(ctx context.Context, tx *sql.Tx, id int64, u upgrade.Upgrade) error {
	const dropInput = `DELETE FROM upgrade_input WHERE upgrade_id = ? AND name = ?`
	const dropMade = `DELETE FROM upgrade_made WHERE upgrade_id = ?`
	for name := range was.inputs {
		if _, ok := u.Inputs[name]; ok {
			continue
		}
		if _, err := tx.ExecContext(ctx, dropInput, id, name); err != nil {
			return err
		}
	}
	if err := was.addInputs(ctx, tx, id, u); err != nil || maps.Equal(was.made, u.Made) {
		return err
	}
	if _, err := tx.ExecContext(ctx, dropMade, id); err != nil {
		return err
	}
	return addMade(ctx, tx, id, u)
}

// addInputs writes those that are not what they were.
func (was typed) addInputs(ctx context.Context, tx *sql.Tx, id int64, u upgrade.Upgrade) error {
	const query = `
		INSERT INTO upgrade_input (upgrade_id, name, typed)
		VALUES (?, ?, ?)
		ON CONFLICT (upgrade_id, name) DO UPDATE SET typed = excluded.typed`
	for name, typed := range u.Inputs {
		if is, ok := was.inputs[name]; ok && is == typed {
			continue
		}
		if _, err := tx.ExecContext(ctx, query, id, name, typed); err != nil {
			return fmt.Errorf("upgrade %s: input %s: %w", u.ID, name, err)
		}
	}
	return nil
}
