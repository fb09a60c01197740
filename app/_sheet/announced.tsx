import { cellAt, type SheetState } from '@/lib/entry/entry-state';
import type { OpenQuestion, SheetView } from '@/lib/entry/typed-view';
import { questionAndReason } from '@/lib/ladder/doubt';
import { readLength } from '@/lib/units/read-length';
import { echoLength } from '@/lib/units/show-length';
import { cellLabel } from './table/girth-cell';

/** For screen readers: the rung typed last, how it was read, and the question it raised. Focus stays where it is. */
export function Announced({ state, view, question }: { state: SheetState; view: SheetView; question: OpenQuestion | undefined }) {
  const { newest, form, said: done } = state;
  const row = newest && view.rows.find((one) => one.key === newest.row);
  const cell = newest ? cellAt(form, newest) : undefined;
  const reading = cell?.text.trim() ? readLength(cell.text, view.sheet.unit, true) : undefined;
  const said = [
    ...(newest && row && reading
      ? [
          cellLabel(view.sheet.limb, newest, row, view.sheet.unit),
          reading.kind === 'read' ? echoLength(reading.value.nm / 1e6, view.sheet.unit) : reading.reason,
        ]
      : []),
    ...(question && newest && question.row === newest.row && question.side === newest.side
      ? [`Question: ${questionAndReason(question.doubt).question} ${questionAndReason(question.doubt).reason}`]
      : []),
    ...(done ? [done] : []),
  ];
  return (
    <p className="visually-hidden" aria-live="polite">
      {said.join('. ')}
    </p>
  );
}
