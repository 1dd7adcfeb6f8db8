import { describe, expect, it } from 'vitest';
import { TUNINGS, type Tuning } from '../../src/instrument/tuning.ts';
import { itemAt } from '../../src/values/checked.ts';

describe.each(TUNINGS.map((tuning): readonly [string, Tuning] => [tuning.id, tuning]))(
  'the tuning %s',
  (id, tuning) => {
    it('has one blow and one draw reed for every hole, starting on the key note', () => {
      expect(tuning.blow).toHaveLength(tuning.draw.length);
      expect([10, 12]).toContain(tuning.blow.length);
      expect(tuning.blow[0]).toBe(0);
    });

    it('rises from hole to hole on both breaths', () => {
      for (const row of [tuning.blow, tuning.draw]) {
        for (let hole = 1; hole < row.length; hole++) expect(row[hole]).toBeGreaterThanOrEqual(itemAt(row, hole - 1));
      }
    });

    it('is a name nobody else has, in small letters', () => {
      expect(TUNINGS.filter((other) => other.id === id)).toHaveLength(1);
      expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
    });
  },
);
