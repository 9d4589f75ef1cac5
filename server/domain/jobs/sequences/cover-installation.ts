import { METHODS, QUALIFIED } from './bird-steps.ts'
import { BRIEFING_STEPS } from './briefing-steps.ts'
import { CLEAN_UP_STEPS } from './left-steps.ts'
import type { SequenceDraft } from './sequence-draft.ts'
import { confirm } from './step-draft.ts'

export const COVER_INSTALLATION: SequenceDraft = {
  id: 'cover-installation',
  name: 'Installing covers for birds',
  forKinds: ['retrofit round'],
  source:
    'Common practice, no source; separations after APLIC, Suggested Practices, 2006 (from memory). The utility’s own procedure governs.',
  steps: [
    ...BRIEFING_STEPS,
    {
      id: 'kit',
      text: 'Lay out the covers of this pole and compare kind, size and number with the kit. Clean, whole, right side out.',
      asks: [
        confirm('complete', 'Kit complete, sizes fit'),
        { id: 'material', what: 'Material and class marked on it', kind: 'text', isNeeded: false },
      ],
    },
    {
      id: 'before',
      text: 'Take a photo of the pole top as it was found.',
      asks: [confirm('taken', 'Photo taken')],
      mayBeLeftOut: true,
    },
    {
      id: 'method',
      text: 'Settle how it is done: dead and grounded, or energized with sticks or gloves by people qualified for it, as your rules allow for these parts.',
      hazard: 'A cover slipping over energized parts can carry a hand or a tool too near.',
      isHoldPoint: true,
      asks: [{ id: 'method', what: 'Done', kind: 'choice', options: [...METHODS] }, QUALIFIED],
      signedBy: 'person in charge',
    },
    {
      id: 'covers',
      text: 'Put on the covers of the list, nearest first as you move in; your rules govern. Lock every cover as its maker asks; drain holes down.',
      hazard: 'Covers protect birds from brief contact. They do not insulate people.',
      asks: [
        { id: 'count', what: 'Covers put on', kind: 'number', unit: 'pieces' },
        confirm(
          'locked',
          'Every cover locked, none can turn or slide',
          'A cover that slips can bridge parts or guard nothing: take it off or lock it.',
        ),
      ],
    },
    {
      id: 'other-measures',
      text: 'Where the list asks for arms, extensions or moved equipment, that is line construction: do it by your own procedure for it.',
      hazard: 'Moving an arm or a conductor changes its tension and its clearances.',
      asks: [confirm('done', 'Built as listed, clearances checked')],
      mayBeLeftOut: true,
    },
    {
      id: 'pairs',
      text: 'Look from below and from the bucket: every open pair of the list is closed. Measure what is still bare where a bird can stand.',
      isHoldPoint: true,
      asks: [
        {
          id: 'left',
          what: 'Pairs of the list',
          kind: 'choice',
          options: ['all closed', 'some left open, see the remark'],
        },
        {
          id: 'gap',
          what: 'Least gap left between bare parts',
          kind: 'number',
          unit: 'in',
          isNeeded: false,
        },
      ],
      signedBy: 'two of the crew',
    },
    ...CLEAN_UP_STEPS,
  ],
}
