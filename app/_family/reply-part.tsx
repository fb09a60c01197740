import type { SentReply } from '@/db/documents/family-replies';
import { REPLY_PLACES, REPLY_SIGNS } from '@/lib/observations/family-reply';
import type { FamilyPage } from '@/lib/summary/family/family-content';
import { familyWords } from '@/lib/summary/family/family-languages';
import { replyToFamily, stateToFamily } from '@/lib/summary/family/read-reply';
import { asSentence } from '@/lib/units/as-sentence';
import styles from './reply.module.css';
import { ReplyForm } from './reply-form';

type Props = {
  readonly page: FamilyPage;
  readonly sent: readonly SentReply[];
  readonly justSent: boolean;
  /** False once the course of care has ended: what was sent stands, nothing more is taken. */
  readonly isOpen: boolean;
};

/** What stands under a shared page: what the family sent by the link, by day, and the form for more. Nothing of it is printed. */
export function ReplyPart({ page, sent, justSent, isOpen }: Props) {
  const { asks, language, call } = page;
  if (!asks) return null;
  const { reply: words, plan } = familyWords(language);
  const places = REPLY_PLACES.map((_, at) => words.places[asks.limb][at] ?? '');
  return (
    <section className={`no-print ${styles.familyReply}`} lang={language} dir={page.direction} aria-labelledby="reply-head">
      <h2 id="reply-head">{words.head}</h2>
      {justSent && sent.length > 0 && (
        <p role="status" className={styles.replySent}>
          {words.thanks} {words.read}
        </p>
      )}
      {sent.length > 0 && (
        <>
          <h3>{words.sentHead}</h3>
          <ul className="plain-list">
            {sent.map((one) => (
              <li key={`${one.day} ${one.time} ${JSON.stringify(one)}`}>
                <strong>{`${plan.day(one.day, asks.unit)}, ${one.time}`}</strong> {asSentence(replyToFamily(one, words))}{' '}
                <strong>{stateToFamily(one, words, (day) => plan.day(day, asks.unit))}</strong>
              </li>
            ))}
          </ul>
        </>
      )}
      {isOpen && (
        <>
          <p>
            {words.urgent} <strong>{call.line}</strong> {words.read}
          </p>
          <ReplyForm
            key={sent.length}
            submissionId={crypto.randomUUID()}
            language={language}
            side={asks.side}
            outline={asks.outline}
            places={places}
            words={{
              ...{ hours: words.hours, hoursHint: words.hoursHint, marks: words.marks(asks), marksHint: words.marksHint },
              ...{ nothing: words.nothing, call: words.call, callHint: words.callHint, words: words.words, by: words.by, send: words.send },
              signs: REPLY_SIGNS.map((sign) => ({ key: sign, words: words.signs[sign] })),
            }}
          />
        </>
      )}
    </section>
  );
}
