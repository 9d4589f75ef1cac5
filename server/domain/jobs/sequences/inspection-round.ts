import { BRIEFING_STEPS } from './briefing-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { confirm } from './step-draft.ts'

export const INSPECTION_ROUND: SequenceDraft = {
  id: 'inspection-round',
  name: 'Inspection round',
  forKinds: ['inspection'],
  source: 'Common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS.filter(({ id }) => ['procedure', 'right-pole', 'tailboard'].includes(id)),
    {
      id: 'from-the-ground',
      text: 'From the ground: pole, arms, guys, ground wire, tags. Nothing is touched.',
      hazard: 'Nobody climbs, and nothing is opened, in an inspection from the ground.',
      asks: [
        { id: 'pole', what: 'Pole and arms', kind: 'choice', options: ['good', 'needs work'] },
        {
          id: 'ground',
          what: 'Ground wire and bonds',
          kind: 'choice',
          options: ['good', 'broken or loose', 'cannot be seen'],
        },
        { id: 'seen', what: 'What was seen', kind: 'text', isNeeded: false },
      ],
    },
    {
      id: 'equipment',
      text: 'Look at what hangs here through glasses: leaks, rust, chipped bushings, blown arresters, loose leads, burned marks. Listen.',
      asks: [
        {
          id: 'equipment',
          what: 'Equipment',
          kind: 'choice',
          options: ['good', 'needs work', 'needs work at once', 'nothing hangs here'],
        },
        { id: 'seen', what: 'What was seen', kind: 'text', isNeeded: false },
      ],
    },
    {
      id: 'regulator',
      text: 'Where a regulator hangs here, read each control without changing anything: tap, counter, volts, alarms. Leave it out where there is none.',
      asks: [
        { id: 'taps', what: 'Tap positions, by phase', kind: 'text' },
        { id: 'counters', what: 'Counters, by phase', kind: 'text' },
        { id: 'volts', what: 'Load volts on 120, by phase', kind: 'text' },
        confirm('automatic', 'Every control in automatic and locked'),
      ],
      mayBeLeftOut: true,
    },
    {
      id: 'birds',
      text: 'Look for birds: covers that slipped or cracked, perches, nests, droppings, dead or hurt birds at the foot of the pole.',
      hazard: 'Touch no bird, egg or nest: they are protected by law. Report a find on the spot.',
      asks: [
        {
          id: 'covers',
          what: 'Covers and perches',
          kind: 'choice',
          options: ['all in place', 'some failed', 'none here'],
        },
        {
          id: 'nest',
          what: 'Nest',
          kind: 'choice',
          options: ['none', 'old, not in use', 'in use', 'cannot tell'],
        },
        { id: 'found', what: 'Birds found dead or hurt', kind: 'number', unit: 'birds' },
        { id: 'seen', what: 'What was seen', kind: 'text', isNeeded: false },
      ],
    },
    {
      id: 'verdict',
      text: 'Say what this pole needs next, and how soon.',
      isHoldPoint: true,
      asks: [
        {
          id: 'next',
          what: 'Next',
          kind: 'choice',
          options: ['nothing', 'work, planned', 'work, soon', 'danger, reported by phone'],
        },
        { id: 'what', what: 'Which work', kind: 'text', isNeeded: false },
      ],
      signedBy: 'person in charge',
    },
    {
      id: 'photos',
      text: 'Take photos of the whole pole, its top, and of whatever is not as it should be.',
      asks: [confirm('taken', 'Photos taken')],
      mayBeLeftOut: true,
    },
  ],
}
