import { describe, expect, it } from 'vitest';
import type { CutLadder } from '@/lib/forms/read-cut';
import { asFarAsRoom, orderFormOf, readOrderForm } from '@/lib/forms/read-order-form';
import { calendarDay } from '@/lib/units/calendar-day';

const ladder: CutLadder = { key: 'v1 left leg', visitId: 'v1', day: calendarDay('2026-11-10'), limb: 'leg', side: 'left', unit: 'in' };
const typed = {
  cutFrom: 'v1 left leg',
  form: 'thigh-high',
  use: 'day',
  from: 'ankle-crease',
  to: 'gluteal-fold',
  reduction: '15',
  convention: 'C(1-r)',
  quantity: '2',
  allowance: '3/4',
  lifeDays: '90',
  leadDays: '14',
  reasonCode: 'worn out',
  option0Choice: 'expansion panel: expansion panel',
  option0Place: 'back of the thigh',
  option0Width: '1 1/2 in',
};

describe('the order form', () => {
  it('reads an order and shows it again as it was typed', () => {
    const read = readOrderForm(typed, [ladder]);
    if (read.kind !== 'read') throw new Error(JSON.stringify(read.errors));
    expect(read.choice).toMatchObject({ limb: 'leg', side: 'left', quantity: 2, decided: { text: '3/4', unit: 'in', nm: 19_050_000 } });
    expect(read.choice.garment.options).toEqual([
      {
        kind: 'expansion panel',
        choice: 'expansion panel',
        place: 'back of the thigh',
        width: { text: '1 1/2 in', unit: 'in', nm: 38_100_000 },
      },
    ]);
    const again = readOrderForm(orderFormOf(read.choice, ladder.key), [ladder]);
    expect(again).toMatchObject({ kind: 'read', choice: { garment: read.choice.garment, decided: { nm: 19_050_000 } } });
  });

  it('room left empty is what one panel holds; a nought is none, and stays none when the form is opened again', () => {
    const decided = (allowance: string, more = {}) => {
      const read = readOrderForm({ ...typed, allowance, ...more }, [ladder]);
      if (read.kind !== 'read') throw new Error(JSON.stringify(read.errors));
      return { room: read.choice.decided?.nm ?? null, again: orderFormOf(read.choice, ladder.key).allowance };
    };
    expect(decided('')).toEqual({ room: 38_100_000, again: '1 1/2 in' });
    expect(decided('0')).toEqual({ room: null, again: '0' });
    const two = { option1Choice: typed.option0Choice, option1Place: 'front', option1Width: '1 in' };
    expect(decided('', two).room, 'two panels: the room is typed').toBeNull();
    expect(decided('', { option0Choice: '', option0Place: '', option0Width: '' })).toEqual({ room: null, again: '' });
  });

  it('is read as far as the room hangs on it before the rest is filled, and refuses only those boxes', () => {
    const { reasonCode: _reason, quantity: _quantity, ...early } = typed;
    expect(readOrderForm(early, [ladder]).kind).toBe('refused');
    const read = readOrderForm(asFarAsRoom({ ...early, scheme: 'half', className: '' }), [ladder]);
    expect(read).toMatchObject({ kind: 'read', choice: { reductionPct: 15, covers: { from: 'ankle-crease', to: 'gluteal-fold' } } });
    const bare = readOrderForm(asFarAsRoom({ cutFrom: ladder.key, form: 'thigh-high' }), [ladder]);
    expect(bare.kind === 'refused' && Object.keys(bare.errors).sort()).toEqual([
      'convention',
      'from',
      'leadDays',
      'lifeDays',
      'reduction',
      'to',
    ]);
  });

  it('keeps maker, colour and the day needed by in the clinic’s words; refuses what is too long and a day before the measuring', () => {
    const supply = { maker: 'workshop by the quay', colour: 'dark blue', neededBy: '2026-12-01' };
    const read = readOrderForm({ ...typed, ...supply }, [ladder]);
    if (read.kind !== 'read') throw new Error(JSON.stringify(read.errors));
    expect(read.choice).toMatchObject(supply);
    expect(orderFormOf(read.choice, ladder.key)).toMatchObject(supply);
    const without = readOrderForm(typed, [ladder]);
    expect(without.kind === 'read' && Object.keys(without.choice)).not.toEqual(expect.arrayContaining(['maker']));
    const wrong = readOrderForm({ ...typed, maker: 'm'.repeat(121), colour: 'c'.repeat(61), neededBy: '2026-11-09' }, [ladder]);
    expect(wrong.kind === 'refused' && Object.keys(wrong.errors)).toEqual(['maker', 'colour', 'neededBy']);
  });

  it('refuses a class without its scheme and range, and a range that runs backwards', () => {
    const bare = readOrderForm({ ...typed, className: '2' }, [ladder]);
    expect(bare.kind === 'refused' && Object.keys(bare.errors)).toEqual(expect.arrayContaining(['scheme', 'lowMmHg', 'highMmHg']));
    const turned = readOrderForm({ ...typed, scheme: 'clinic scheme', className: '2', lowMmHg: '32', highMmHg: '23' }, [ladder]);
    expect(turned).toMatchObject({ kind: 'refused', errors: { highMmHg: 'The range runs backwards.' } });
  });

  it('refuses a garment of another limb, an option without its place, a panel without its width', () => {
    const errors = (rest: Record<string, string>) => {
      const read = readOrderForm({ ...typed, ...rest }, [ladder]);
      return read.kind === 'refused' ? Object.keys(read.errors) : [];
    };
    expect(errors({ form: 'glove' })).toEqual(['form']);
    expect(errors({ option0Place: '' })).toEqual(['option0Place']);
    expect(errors({ option0Width: '' })).toEqual(['option0Width']);
    expect(errors({ option1Place: 'knee' })).toEqual(['option1Choice']);
    expect(errors({ quantity: '7' })).toEqual(['quantity']);
    expect(errors({ reasonCode: '' })).toEqual(['reasonCode']);
    expect(errors({ to: 'ankle-crease' })).toEqual(['to']);
  });
});
