'use client';

import clsx from 'clsx';
import { Fragment, type ReactNode } from 'react';
import type { LineView } from './line-view';
import styles from './today.module.css';
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
      <tr className={styles.workRow} data-line="">
        <td className={styles.workDay}>
          <strong>{line.day}</strong>
          {line.over && <span className="second-line over">{line.over}</span>}
        </td>
        <td className={styles.workLimb}>
          {line.glyph && (
            <svg
              className={styles.rowGlyph}
              data-side={line.side}
              viewBox={`0 0 ${line.glyph.width} ${line.glyph.height}`}
              width={line.glyph.width}
              height={line.glyph.height}
              aria-hidden="true"
            >
              <path className={styles.fill} d={line.glyph.fill} />
              <path className={styles.edge} d={line.glyph.edge} />
            </svg>
          )}
          {line.side && (
            <span className="side-word" data-side={line.side}>
              {line.side}
            </span>
          )}
        </td>
        <th scope="row" className={styles.workWho}>
          <a className="quiet-link" href={`/patients/${line.patientId}`} data-soft="">
            {line.who}
          </a>
          <span className="second-line">{line.about}</span>
        </th>
        <td className={clsx(styles.workWhat, line.kind === 'refer' && styles.refer)} data-what="">
          <WorkIcon kind={line.kind} /> <strong>{line.title}</strong>
        </td>
        <td className={styles.workWhy}>
          <span className={styles.reason} title={line.reason}>
            {line.reason}
          </span>
          {line.behind && <span className="second-line">{line.behind}</span>}
        </td>
        <td className={styles.workDo}>
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
        <tr className={styles.answerRow} data-answering="">
          <td className="whole-row" colSpan={6}>
            {answer}
          </td>
        </tr>
      )}
    </Fragment>
  ));
}
