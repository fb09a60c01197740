'use client';

import { type MouseEvent, useActionState, useEffect, useRef, useState } from 'react';
import { type BoxChoice, typedBoxes } from '@/app/_form/typed-boxes';
import { limbEdges } from '@/app/_looked/limb-edges';
import pictureStyles from '@/app/_picture/picture.module.css';
import type { Side } from '@/lib/ladder/limb';
import { REPLY_BOUNDS } from '@/lib/observations/family-reply';
import type { MarkedOutline } from '@/lib/summary/family/family-content';
import styles from './reply.module.css';
import { type ReplyState, replyAction } from './reply-action';

type Props = {
  readonly submissionId: string;
  readonly language: string;
  readonly side: Side;
  readonly outline: MarkedOutline | null;
  /** Names of the places from the far landmark to the near one. */
  readonly places: readonly string[];
  readonly words: Readonly<
    Record<'hours' | 'hoursHint' | 'marks' | 'marksHint' | 'nothing' | 'call' | 'callHint' | 'words' | 'by' | 'send', string> & {
      signs: readonly BoxChoice[];
    }
  >;
};

const START: ReplyState = { errors: {}, typed: null };

/** What a family sends back: hours, places on the limb, please call. Works without script; a refused reply keeps what was typed. */
export function ReplyForm({ submissionId, language, side, outline, places, words }: Props) {
  const [{ errors, typed }, send, busy] = useActionState<ReplyState, FormData>(replyAction, START);
  const [chosen, setChosen] = useState<Readonly<Record<string, string>>>({});
  const kept = typed ?? {};
  const said = useRef<HTMLParagraphElement>(null);
  useEffect(() => {
    if (errors.form) said.current?.focus();
  }, [errors]);
  const { text } = typedBoxes(kept, errors, (box) => `reply-${box}`);
  /** The near end stands first, as on the picture. */
  const fromAbove = places.map((name, at) => ({ name, at, box: `mark-${at}` })).reverse();
  const signOf = (box: string) => chosen[box] ?? kept[box] ?? '';
  return (
    <form action={send} className="form" noValidate>
      {errors.form && (
        <p className="refused-box" role="alert" tabIndex={-1} ref={said}>
          {errors.form}
        </p>
      )}
      <input type="hidden" name="submissionId" value={submissionId} />
      <input type="hidden" name="language" value={language} />
      {text('hours', words.hours, words.hoursHint, { inputMode: 'decimal', maxLength: 20, className: styles.replyHours })}
      <fieldset className={`field ${styles.replyMarks}`}>
        <legend>{words.marks}</legend>
        <span className="hint">{words.marksHint}</span>
        <ReplyPicture side={side} outline={outline} chosen={places.map((_, at) => signOf(`mark-${at}`) !== '')} />
        <ol>
          {fromAbove.map(({ name, box }, number) => (
            <li key={box}>
              <label htmlFor={`reply-${box}`}>{`${number + 1} ${name}`}</label>
              <select
                id={`reply-${box}`}
                name={box}
                key={kept[box]}
                defaultValue={kept[box] ?? ''}
                onChange={(event) => setChosen({ ...chosen, [box]: event.target.value })}
              >
                <option value="">{words.nothing}</option>
                {words.signs.map((sign) => (
                  <option key={sign.key} value={sign.key}>
                    {sign.words}
                  </option>
                ))}
              </select>
            </li>
          ))}
        </ol>
      </fieldset>
      <label className="choice">
        <input type="checkbox" name="call" value="yes" defaultChecked={kept.call === 'yes'} key={kept.call} />
        {words.call}
      </label>
      <p className="hint">{words.callHint}</p>
      {text('words', words.words, undefined, { maxLength: 2 * REPLY_BOUNDS.words })}
      {text('by', words.by, undefined, { maxLength: 2 * REPLY_BOUNDS.by, autoComplete: 'name' })}
      <div className="actions">
        <button type="submit" className="button main" aria-disabled={busy}>
          {words.send}
        </button>
      </div>
    </form>
  );
}

const [WIDTH, HEIGHT, EDGE] = [110, 360, 20] as const;

/** The limb with a number at each place: pressed, it goes to the box of that place. Who does not see it has the boxes. */
function ReplyPicture({ side, outline, chosen }: { side: Side; outline: MarkedOutline | null; chosen: readonly boolean[] }) {
  const y = (share: number) => HEIGHT - EDGE - share * (HEIGHT - 2 * EDGE);
  const places = outline?.places ?? chosen.map((_, at) => at / (chosen.length - 1));
  const go = (event: MouseEvent, at: number) => {
    const select = document.getElementById(`reply-mark-${at}`);
    if (!(select instanceof HTMLSelectElement)) return;
    event.preventDefault();
    select.focus();
    try {
      select.showPicker();
    } catch {
      // A browser that opens no list by itself: the box is at hand all the same.
    }
  };
  return (
    <svg className={`${pictureStyles.limb} ${styles.replyPicture}`} data-side={side} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} aria-hidden="true">
      <path
        className={pictureStyles.limbEdge}
        d={outline ? limbEdges(outline.rungs.map(y), outline.girthsMm) : `M35 ${y(0)}V${y(1)}M75 ${y(0)}V${y(1)}`}
      />
      {places.map((share, at) => (
        <a key={share} href={`#reply-mark-${at}`} tabIndex={-1} data-chosen={chosen[at] || undefined} onClick={(event) => go(event, at)}>
          <circle cx={55} cy={y(share)} r={15} />
          <text x={55} y={y(share) + 5} textAnchor="middle">
            {places.length - at}
          </text>
        </a>
      ))}
    </svg>
  );
}
