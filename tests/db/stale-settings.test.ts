import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { measurerDigest } from '@/lib/record/measurer';
import { type ClinicOn, clinicOn, ENGINES } from './clinic-on';

const signedIn = vi.hoisted((): { lead: unknown } => ({ lead: null }));
vi.mock('@/app/_auth/therapist', () => ({ requireActing: async () => signedIn.lead }));
vi.mock('next/navigation', () => ({
  redirect: (to: string) => {
    throw new Error(`to ${to}`);
  },
}));

/** Boxes as a browser posts them. */
function posted(boxes: Readonly<Record<string, string>>): FormData {
  const form = new FormData();
  for (const [box, value] of Object.entries(boxes)) form.set(box, value);
  return form;
}

describe('settings that two leads change at once', () => {
  let at: ClinicOn;
  beforeAll(async () => {
    at = await clinicOn('sqlite');
    signedIn.lead = at.therapist;
  });
  afterAll(async () => at?.close());

  const nothing = { errors: {}, typed: null };
  const stale = /^Somebody else .*Nothing was saved/;

  it('of the working days refuse the later one, with what was typed; a reason that is too long is refused, not cut', async () => {
    const { saveDiaryAction } = await import('@/app/clinic/diary/actions');
    const { diaryOf } = await import('@/db/clinic/diary');
    await expect(saveDiaryAction(nothing, posted({ weekday1: 'yes', number: '0' }))).rejects.toThrow('to /clinic/diary');
    const late = { weekday2: 'yes', number: '0', reason: 'new rota' };
    expect(await saveDiaryAction(nothing, posted(late))).toEqual({ errors: { form: expect.stringMatching(stale) }, typed: late });
    const long = { weekday2: 'yes', number: '1', reason: 'a'.repeat(201) };
    expect((await saveDiaryAction(nothing, posted(long))).errors).toEqual({ reason: 'Too long: 200 characters at most.' });
    expect((await diaryOf(at.therapist)).weekdays).toEqual([1]);
  });

  it('of the clinic’s own details refuse the later one; what is kept is shown at once', async () => {
    const { saveClinicDetailsAction } = await import('@/app/clinic/details/actions');
    const { clinicDetailsOf } = await import('@/db/clinic/clinic-details');
    const typed = { name: 'Harbour', subtitle: '', lengthUnit: 'cm', massUnit: 'kg', timeZone: 'Europe/Vienna', number: '0' };
    const first = { ...typed, address: ' 14 Harbour Lane \n\nEastport', phone: '555-0142', emergency: ' 144 ' };
    await expect(saveClinicDetailsAction(nothing, posted(first))).rejects.toThrow('to /clinic/details');
    expect(await clinicDetailsOf(at.therapist)).toMatchObject({
      lengthUnit: 'cm',
      address: ['14 Harbour Lane', 'Eastport'],
      phone: '555-0142',
      emergency: '144',
    });
    expect((await at.db.clinic.clinicOf(at.therapist)).timeZone).toBe('Europe/Vienna');
    expect(await saveClinicDetailsAction(nothing, posted(typed))).toEqual({ errors: { form: expect.stringMatching(stale) }, typed });
    const bare = await saveClinicDetailsAction(nothing, posted({ number: '1', timeZone: 'Atlantis/Old Town', phone: '5'.repeat(41) }));
    expect(Object.keys(bare.errors).sort()).toEqual(['lengthUnit', 'massUnit', 'name', 'phone', 'timeZone']);
    const words = await saveClinicDetailsAction(nothing, posted({ ...typed, number: '1', emergency: 'the police' }));
    expect(words.errors).toEqual({ emergency: 'Type a number that a telephone can dial, or leave it empty.' });
    const half = await saveClinicDetailsAction(nothing, posted({ ...typed, number: '1', legZero: 'ankle-crease', armInterval: 'wide' }));
    expect(Object.keys(half.errors).sort()).toEqual(['armDirection', 'armInterval', 'armZero', 'legDirection', 'legInterval']);
    const long = { ...typed, number: '1', address: Array.from({ length: 6 }, () => 'line').join('\n') };
    expect((await saveClinicDetailsAction(nothing, posted(long))).errors).toEqual({ address: '5 lines at most.' });
  });

  it('of the texts of leaving refuse the later one', async () => {
    const { saveLeavingTextsAction } = await import('@/app/clinic/leaving/actions');
    await expect(saveLeavingTextsAction(nothing, posted({ criteria: 'Steady', number: '0' }))).rejects.toThrow('to /clinic/leaving');
    const late = { criteria: 'Well', number: '0' };
    expect(await saveLeavingTextsAction(nothing, posted(late))).toEqual({ errors: { form: expect.stringMatching(stale) }, typed: late });
  });

  it('of the matches refuse the later one, so that none is lost', async () => {
    const { matchMeasurerAction } = await import('@/app/clinic/measurers/actions');
    const { measurerMatches } = await import('@/db/patients/measurers');
    const match = (text: string, number: string) => ({ digest: measurerDigest(text), whose: 'left', number });
    const before = { refusal: '', typed: null };
    await expect(matchMeasurerAction(before, posted(match('mum', '0')))).rejects.toThrow('to /clinic/measurers');
    const late = match('aunt', '0');
    expect(await matchMeasurerAction(before, posted(late))).toEqual({ refusal: expect.stringMatching(stale), typed: late });
    await expect(matchMeasurerAction(before, posted(match('aunt', '1')))).rejects.toThrow('to /clinic/measurers');
    expect((await measurerMatches(at.therapist)).length).toBe(2);
  });
});

describe.each(ENGINES)('a setting changed by several at the same moment on %s', (engine) => {
  let at: ClinicOn;
  beforeAll(async () => {
    at = await clinicOn(engine);
  });
  afterAll(async () => at?.close());

  it('is kept once for each state it was changed from', async () => {
    const change = (value: number, after: number) => at.db.clinic.changeSetting(at.therapist, { key: 'k', value, reason: null, after });
    const ended = await Promise.all([1, 2, 3, 4].map((value) => change(value, 0)));
    expect(ended.sort()).toEqual(['saved', 'stale', 'stale', 'stale']);
    expect(await change(5, 0)).toBe('stale');
    expect(await change(5, Number.NaN)).toBe('stale');
    expect(await change(5, 1)).toBe('saved');
    expect(await at.db.clinic.historyOfSetting(at.therapist, 'k')).toHaveLength(2);
  });
});
