package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"

	"fettle/plan/order"
)

// Shopping is what the owner noted of a machine's buy list, and the bar in the rack, as it was typed.
type Shopping struct {
	Currency string // of a price without one; "" is not said
	Marks    []Mark // by their keys
	Offcuts  []Offcut
}

// Mark is what was noted of a line of the buy list.
type Mark struct {
	Key      string
	Called   string // what the line was when it was marked
	State    order.State
	Quantity string // how many that is true of; "" is as many as are needed
	Price    string // of one
	Note     string
}

// Offcut is a piece of bar in the rack.
type Offcut struct {
	Label, Material, Form  string
	Across, Second, Length string
}

// Shopping reads what was noted of a machine's buy list, and its revision: 0 where nothing was yet.
func (s *Store) Shopping(ctx context.Context, machineID int64) (sh Shopping, revision int64, err error) {
	err = s.read(ctx, func(tx *sql.Tx) (err error) {
		sh, revision, err = shoppingOf(ctx, tx, machineID)
		return err
	})
	return sh, revision, err
}

// SaveShopping keeps what was noted in place of what is stored, which must be at the revision. It gives
// the new revision, or a *[StaleError] of Shopping. The plan does not change by it.
func (s *Store) SaveShopping(ctx context.Context, machineID, revision int64, sh Shopping) (int64, error) {
	const query = `
		INSERT INTO shopping (machine_id, currency, revision) VALUES (?, ?, 1)
		ON CONFLICT (machine_id) DO UPDATE SET currency = excluded.currency, revision = revision + 1
		RETURNING id`
	err := s.write(ctx, func(tx *sql.Tx) error {
		stored, is, err := shoppingOf(ctx, tx, machineID)
		if err != nil {
			return err
		}
		if is != revision {
			return &StaleError[Shopping]{"the buy list", stored, is}
		}
		if err := s.count(ctx, tx, machineID, drafted); err != nil {
			return err
		}
		var id int64
		if err := tx.QueryRowContext(ctx, query, machineID, sh.Currency).Scan(&id); err != nil {
			return fmt.Errorf("buy list of machine %d: %w", machineID, err)
		}
		if err := replaceMarks(ctx, tx, id, sh.Marks); err != nil {
			return err
		}
		return replaceOffcuts(ctx, tx, id, sh.Offcuts)
	})
	return revision + 1, err
}

func shoppingOf(ctx context.Context, tx *sql.Tx, machineID int64) (sh Shopping, revision int64, err error) {
	if _, err := headOf(ctx, tx, machineID); err != nil {
		return sh, 0, err
	}
	const query = `SELECT id, currency, revision FROM shopping WHERE machine_id = ?`
	var id int64
	err = tx.QueryRowContext(ctx, query, machineID).Scan(&id, &sh.Currency, &revision)
	if errors.Is(err, sql.ErrNoRows) {
		return Shopping{}, 0, nil
	}
	if err != nil {
		return sh, 0, err
	}
	const marks = `SELECT key, called, state, quantity, price, note FROM shopping_mark WHERE shopping_id = ? ORDER BY key`
	err = each(ctx, tx, marks, id, func(rows *sql.Rows) error {
		var m Mark
		err := rows.Scan(&m.Key, &m.Called, &m.State, &m.Quantity, &m.Price, &m.Note)
		sh.Marks = append(sh.Marks, m)
		return err
	})
	if err != nil {
		return sh, 0, err
	}
	const offcuts = `SELECT label, material, form, across, second, length FROM offcut WHERE shopping_id = ? ORDER BY position, id`
	err = each(ctx, tx, offcuts, id, func(rows *sql.Rows) error {
		var o Offcut
		err := rows.Scan(&o.Label, &o.Material, &o.Form, &o.Across, &o.Second, &o.Length)
		sh.Offcuts = append(sh.Offcuts, o)
		return err
	})
	return sh, revision, err
}

func replaceMarks(ctx context.Context, tx *sql.Tx, id int64, marks []Mark) error {
	const query = `
		INSERT INTO shopping_mark (shopping_id, key, called, state, quantity, price, note)
		VALUES (?, ?, ?, ?, ?, ?, ?)`
	if _, err := tx.ExecContext(ctx, `DELETE FROM shopping_mark WHERE shopping_id = ?`, id); err != nil {
		return err
	}
	for _, m := range marks {
		if _, err := tx.ExecContext(ctx, query, id, m.Key, m.Called, m.State, m.Quantity, m.Price, m.Note); err != nil {
			return fmt.Errorf("line %s of the buy list: %w", m.Key, err)
		}
	}
	return nil
}

func replaceOffcuts(ctx context.Context, tx *sql.Tx, id int64, offcuts []Offcut) error {
	const query = `
		INSERT INTO offcut (shopping_id, position, label, material, form, across, second, length)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?)`
	if _, err := tx.ExecContext(ctx, `DELETE FROM offcut WHERE shopping_id = ?`, id); err != nil {
		return err
	}
	for i, o := range offcuts {
		if _, err := tx.ExecContext(ctx, query, id, i, o.Label, o.Material, o.Form, o.Across, o.Second, o.Length); err != nil {
			return fmt.Errorf("piece %d of the rack: %w", i+1, err)
		}
	}
	return nil
}
