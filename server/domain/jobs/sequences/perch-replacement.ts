import { PERCH_SEQUENCE_ID } from '../sequence-for.ts'
import { METHODS, QUALIFIED } from './bird-steps.ts'
import { BRIEFING_STEPS } from './briefing-steps.ts'
import { CLEAN_UP_STEPS } from './left-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { confirm } from './step-draft.ts'

export const PERCH_REPLACEMENT: SequenceDraft = {
  id: PERCH_SEQUENCE_ID,
  name: 'Replacing or raising a perch',
  forKinds: ['retrofit round'],
  source: 'Common practice, no source. The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    {
      id: 'nest',
      text: 'Look at perch, arm and pole top through glasses: no bird sits on eggs or young, and no nest is being built.',
      hazard:
        'Birds and nests are protected by law. With a nest in use stop, and call whoever looks after birds at the utility.',
      isHoldPoint: true,
      asks: [
        confirm(
          'none',
          'No nest in use here',
          'The law protects it: stop, keep away, and call whoever looks after birds at the utility.',
        ),
      ],
      signedBy: 'person in charge',
    },
    {
      id: 'parts',
      text: 'Compare perch, bracket and bolts with the kit. A perch of metal is bonded as your standard says, or is not used.',
      asks: [confirm('complete', 'Parts complete and of the right kind')],
    },
    {
      id: 'method',
      text: 'Settle how it is done: dead and grounded, or energized by people qualified for it, as your rules allow here.',
      hazard: 'A long perch swung across the arm can bridge conductors.',
      isHoldPoint: true,
      asks: [{ id: 'method', what: 'Done', kind: 'choice', options: [...METHODS] }, QUALIFIED],
      signedBy: 'person in charge',
    },
    {
      id: 'old-perch',
      text: 'Take the old perch down with a hand line. Never let it hang across conductors.',
      asks: [confirm('down', 'Old perch on the ground')],
      mayBeLeftOut: true,
    },
    {
      id: 'new-perch',
      text: 'Bolt the new perch at the height and place of the list, its bolts locked.',
      isHoldPoint: true,
      asks: [
        {
          id: 'height',
          what: 'From the perch up or down to the nearest energized part',
          kind: 'number',
          unit: 'in',
        },
        confirm(
          'firm',
          'Firm under a hand’s weight, bolts locked',
          'A perch that gives way can fall across conductors: tighten it or take it down.',
        ),
      ],
      signedBy: 'two of the crew',
    },
    {
      id: 'pairs',
      text: 'Look from below: a bird on the new perch reaches no bare energized part with wings or feet.',
      isHoldPoint: true,
      asks: [
        {
          id: 'left',
          what: 'Pairs of the list',
          kind: 'choice',
          options: ['all closed', 'some left open, see the remark'],
        },
      ],
      signedBy: 'two of the crew',
    },
    ...CLEAN_UP_STEPS,
  ],
}
