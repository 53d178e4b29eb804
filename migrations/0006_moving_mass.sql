-- The mass of what moves on an axis was two figures: moving_mass where it goes up and down, slide_mass
-- where it tips beyond its ways. It is one now: what was typed takes the place of what was assumed, and
-- where both were typed, both stay as they were.

DELETE FROM entry
WHERE key = 'moving_mass' AND (typed = '' OR origin = 'assumed') AND part_id IS NULL AND obstacle_id IS NULL
	AND EXISTS (SELECT 1 FROM entry AS other
		WHERE other.axis_id = entry.axis_id AND other.key = 'slide_mass' AND other.typed <> '' AND other.part_id IS NULL AND other.obstacle_id IS NULL);

UPDATE entry SET key = 'moving_mass'
WHERE key = 'slide_mass' AND part_id IS NULL AND obstacle_id IS NULL
	AND NOT EXISTS (SELECT 1 FROM entry AS other
		WHERE other.axis_id = entry.axis_id AND other.key = 'moving_mass' AND other.part_id IS NULL AND other.obstacle_id IS NULL);
