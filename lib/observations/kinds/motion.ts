import type { ObservedKind } from '../kind';

const degrees = { unit: '°', low: -30, high: 200 } as const;

/** Range of motion at the joints that a garment crosses, in degrees from the neutral position. */
export const MOTION: ObservedKind = {
  id: 'motion',
  version: '1',
  label: 'Motion',
  asks: 'How far does the joint move, in degrees from neutral?',
  items: [
    { id: 'shoulder-abduction', label: 'Shoulder, away from the body', ...degrees },
    { id: 'elbow-bend', label: 'Elbow, bent', ...degrees },
    { id: 'elbow-stretch', label: 'Elbow, stretched', ...degrees },
    { id: 'wrist-bend', label: 'Wrist, bent', ...degrees },
    { id: 'wrist-stretch', label: 'Wrist, stretched', ...degrees },
    { id: 'knee-bend', label: 'Knee, bent', ...degrees },
    { id: 'knee-stretch', label: 'Knee, stretched', ...degrees },
    { id: 'ankle-up', label: 'Ankle, foot up', ...degrees },
    { id: 'ankle-down', label: 'Ankle, foot down', ...degrees },
  ],
  where: 'side',
  choices: ['active', 'passive'],
  error: {
    leastChange: 10,
    kind: 'clinic default',
    source:
      'A goniometer spreads by 2 to 7 degrees at the hand (J Orthop Surg Res 2019, s13018-019-1177-y): a change is called from 10 degrees on.',
  },
  source: 'Degrees from the neutral position: common practice.',
};
