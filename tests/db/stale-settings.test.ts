import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { measurerDigest } from '@/lib/record/measurer';
import { type ClinicOn, clinicOn } from './clinic-on';

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
