import { useState, useTransition } from 'react';
import type { useDraft } from '@/app/_draft/use-draft';
import { type Asked, questionKey, type ServerAsks } from '@/lib/entry/asked-by-server';
import { type Asking, beforeFinish } from '@/lib/entry/before-finish';
import type { SheetData } from '@/lib/entry/entry-data';
import { typedView } from '@/lib/entry/typed-view';
import { type VisitQuestion, visitQuestionKey } from '@/lib/entry/visit-question';
import type { FormRefusal } from '@/lib/visit-form/read-sheet-side';
import type { VisitForm } from '@/lib/visit-form/visit-form';
import { measureBoxId } from './measures/measure-box-id';
import { goToRefusal } from './refused-box';
import type { SecondPart } from './use-second-part';
import type { useSheet } from './use-sheet';

/** Boxes that stop a form; none of them when there is nothing to be mended and the page stays. */
export type Stopped = { readonly kind: 'refused'; readonly refusals: readonly FormRefusal[] };

/**
 * Sends the form away with the questions that are left open. Boxes that stop it come back (none of them: the page stays), or questions
 * that the sheet has not asked; nothing comes back when it moves on.
 */
export type Finish = (submissionId: string, form: VisitForm, leftOpen: readonly string[]) => Promise<Stopped | ServerAsks | undefined>;

type Parts = {
  readonly data: SheetData;
  readonly form: VisitForm;
  /** What asks; without it the server alone does. */
  readonly part: SecondPart | undefined;
  readonly draft: ReturnType<typeof useDraft>;
  readonly submissionId: string;
  readonly asked: (ServerAsks & Asked) | null;
  readonly setAsked: (asked: ServerAsks & Asked) => void;
  readonly finish: Finish;
  readonly sheet: ReturnType<typeof useSheet>;
  readonly openSetUp: () => void;
};

/** Finishing a sheet: what stops it, what is said before it goes, the sending, and the questions that the server asks instead. */
export function useFinish({ data, form, part, draft, submissionId, asked, setAsked, finish, sheet, openSetUp }: Parts) {
  const [refusals, setRefusals] = useState<readonly FormRefusal[]>([]);
  const [warned, setWarned] = useState<{ readonly form: VisitForm; readonly notes: readonly string[] } | null>(null);
  const [busy, startFinish] = useTransition();

  const send = () => {
    if (busy) return;
    const read = part?.readVisitForm(form, data);
    if (read?.kind === 'refused') return stop(read.refusals);
    setRefusals([]);
    const notes = warned?.form === form ? [] : beforeFinish(form, data, asking(part), asked);
    if (notes.length > 0) return setWarned({ form, notes });
    startFinish(async () => {
      const kept = await draft.keeper.flush();
      if (!kept && (!data.away || draft.keeper.isApart()))
        return stop([
          { where: 'form', reason: 'Not finished: the sheet could not be kept on the server just now. Nothing typed is lost.' },
        ]);
      const ofLadders = [...(part?.openQuestions(form, data) ?? []), ...(asked?.asks ?? [])].map(questionKey);
      const ofVisit = part?.visitQuestions(form, data) ?? asked?.ofVisit ?? [];
      const left = [...ofLadders, ...ofVisit.map(visitQuestionKey)];
      const stopped = await finish(submissionId, form, left).catch(offline);
      if (stopped?.kind === 'asked') ask(stopped);
      else if (stopped) stop(stopped.refusals);
      else await draft.keeper.close();
    });
  };
  const ask = (more: ServerAsks) => {
    setAsked({ ...more, form });
    const unseen = part ? [] : more.ofVisit.map(({ message }) => message);
    setWarned({ form, notes: [asksInWords(more.asks.length + more.ofVisit.length), ...unseen] });
    const first = more.asks[0];
    const ofVisit = more.ofVisit[0];
    if (ofVisit) document.querySelector<HTMLInputElement>(boxOf(ofVisit))?.focus();
    if (!first || ofVisit) return;
    sheet.setGroup(first.group);
    sheet.focus({ group: first.group, side: first.side, row: first.row, again: false });
    sheet.ask(first);
  };
  const stop = (found: readonly FormRefusal[]) => {
    setRefusals(found);
    goToRefusal(found, form, { group: sheet.setGroup, focus: sheet.focus, setUp: openSetUp });
  };
  return {
    send,
    busy,
    refusals,
    notes: warned?.form === form && !busy ? warned.notes : [],
    goTo: (one: FormRefusal) => stop([one, ...refusals.filter((other) => other !== one)]),
  };
}

/** What asks about the form: all of it, or as long as that has not come the ladder as typed and nothing of the visit. */
function asking(part: SecondPart | undefined): Asking {
  return part ? { viewOf: part.sheetView, ofVisit: part.visitQuestions } : { viewOf: typedView, ofVisit: () => [] };
}

/** The box that a question of the visit is about, as a selector. */
function boxOf({ kind, where }: VisitQuestion): string {
  if (kind === 'second-visit') return '#box-occasion input';
  return where ? `[id="${measureBoxId(where)}"]` : `#box-${kind}`;
}

function asksInWords(count: number): string {
  return `Nothing is saved yet: read beside what is on record now, ${count === 1 ? 'one question is' : `${count} questions are`} open.`;
}

function offline(): Stopped {
  return {
    kind: 'refused',
    refusals: [{ where: 'form', reason: 'The server did not answer. The draft is kept; finish again when it is back.' }],
  };
}
