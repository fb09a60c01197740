import { isNoAnswer } from '../../outcome';
import { raisePrompts } from '../../prompts/decide-prompts';
import { heightOnLimb } from '../../trend/limb-series';
import { LADDER_ID, ladderIdIn, type SetTable, SUBJECT_ID } from './set-table';

/** What the engine makes of the ladders. It goes out and is not read back: it is worked out anew from what was typed. */
export const VOLUME: SetTable = {
  name: 'volume',
  says: 'One row a limb and visit: its volume over the stretch that was measured, or why there is none.',
  columns: [
    SUBJECT_ID,
    LADDER_ID,
    { name: 'limb', kind: 'word', says: 'leg or arm.' },
    { name: 'side', kind: 'word', says: 'left or right, the patient’s own.' },
    { name: 'day', kind: 'day', says: 'Day of the visit.' },
    { name: 'volume_ml', kind: 'decimal', unit: 'mL', says: 'Volume, frusta summed.' },
    { name: 'volume_sd_ml', kind: 'decimal', unit: 'mL', says: 'Its standard error of measurement.' },
    {
      name: 'from_mm',
      kind: 'decimal',
      unit: 'mm',
      says: 'Lower end of the stretch, above the far landmark where it is known, else from the zero.',
    },
    { name: 'to_mm', kind: 'decimal', unit: 'mm', says: 'Upper end of the stretch.' },
    { name: 'mean_girth_mm', kind: 'decimal', unit: 'mm', says: 'Mean girth of the stretch.' },
    { name: 'why_none', kind: 'word', says: 'Why there is no volume.' },
  ],
  rows: (part) =>
    part.analysis().limbs.flatMap(({ series, visits }) =>
      visits.map(({ at, volume }) => {
        const place = part.file.visits.indexOf(at.visit);
        const head = {
          subject_id: part.subjectId,
          ladder_id: ladderIdIn(part, place, series),
          limb: series.limb,
          side: series.side,
          day: at.visit.day,
        };
        if (isNoAnswer(volume)) return { ...head, why_none: volume.noAnswer };
        return {
          ...head,
          volume_ml: volume.volumeMl.toFixed(3),
          volume_sd_ml: volume.sdMl.toFixed(3),
          from_mm: heightOnLimb(at, volume.span.fromMm).toFixed(3),
          to_mm: heightOnLimb(at, volume.span.toMm).toFixed(3),
          mean_girth_mm: volume.meanGirthMm.toFixed(3),
        };
      }),
    ),
};

/** What the engine would have a therapist consider on the day of the export. */
export const PROMPT: SetTable = {
  name: 'prompt',
  says: 'One row a prompt raised on the day of the export. A prompt is something to consider, never a decision.',
  columns: [
    SUBJECT_ID,
    { name: 'rule', kind: 'word', says: 'The rule that raised it.' },
    { name: 'rule_version', kind: 'word', says: 'Version of the rule.' },
    { name: 'action', kind: 'word', says: 'What to consider.' },
    { name: 'due', kind: 'day', tellsWhen: true, says: 'By when.' },
    { name: 'title', kind: 'free-text', says: 'The prompt in words.' },
    { name: 'facts', kind: 'free-text', says: 'The figures it stands on.' },
  ],
  rows: ({ subjectId, analysis }) =>
    raisePrompts(analysis()).map((prompt) => ({
      subject_id: subjectId,
      rule: prompt.rule,
      rule_version: String(prompt.ruleVersion),
      action: prompt.action,
      due: prompt.due ?? '',
      title: prompt.title,
      facts: prompt.facts.join(' '),
    })),
};
