'use client';

import { Fragment, type ReactNode } from 'react';
import type { LineView } from './line-view';
import { WorkIcon } from './work-mark';

type Props = {
  readonly lines: readonly LineView[];
  /** The line that is being answered, and the form under it. */
  readonly open: string | null;
  readonly answer: ReactNode;
};

/**
 * Lines of the worklist as table rows. Rendered on the server like everything else; a client part only so that a line travels to the
 * browser as a few words and not as a tree of elements, which makes a page of fifty a third of its size.
 */
export function WorkLines({ lines, open, answer }: Props) {
  return lines.map((line) => (
    <Fragment key={line.id}>
      <tr className="work-row">
        <td className="work-day">
          <strong>{line.day}</strong>
          {line.over && <span className="under over">{line.over}</span>}
        </td>
        <td className="work-limb">
          {line.glyph && (
            <svg
              className={`row-glyph ${line.side}`}
              viewBox={`0 0 ${line.glyph.width} ${line.glyph.height}`}
              width={line.glyph.width}
              height={line.glyph.height}
              aria-hidden="true"
            >
              <path className="fill" d={line.glyph.fill} />
              <path className="edge" d={line.glyph.edge} />
            </svg>
          )}
          {line.side && <span className={`side-word ${line.side}`}>{line.side}</span>}
        </td>
        <th scope="row" className="work-who">
          <a className="quiet-link" href={`/patients/${line.patientId}`} data-soft="">
            {line.who}
          </a>
          <span className="under">{line.about}</span>
        </th>
        <td className={line.kind === 'refer' ? 'work-what refer' : 'work-what'}>
          <WorkIcon kind={line.kind} /> <strong>{line.title}</strong>
        </td>
        <td className="work-why">
          {line.reason}
          {line.behind && <span className="under">{line.behind}</span>}
        </td>
        <td className="work-do">
          {line.answer && (
            <a
              href={line.answer.href}
              data-soft={line.answer.stays ? 'stay' : ''}
              aria-label={`${line.answer.word}: ${line.title}, ${line.who}`}
            >
              {line.answer.word}
            </a>
          )}
        </td>
      </tr>
      {open === line.id && (
        <tr className="answer-row">
          <td className="whole-row" colSpan={6}>
            {answer}
          </td>
        </tr>
      )}
    </Fragment>
  ));
}
