import { confirm, type StepDraft } from './step-draft.ts'

/** How covers and perches are put on; which of them is allowed where, the utility's rules say. */
export const METHODS = [
  'dead and grounded',
  'energized, with sticks',
  'energized, with gloves',
] as const

export const QUALIFIED = confirm(
  'qualified',
  'Those who do it are qualified for it',
  'Leave it to people who are: put nothing on, and say so at the end.',
)

/** The new units are grounded anyway: nobody has to work near live bushings for their covers. */
export const COVERS_WHILE_DEAD_STEP: StepDraft = {
  id: 'covers-while-dead',
  text: 'While these units are grounded, put the covers that the job lists on their bushings, arresters and leads. Where neutral is still to be proven by volts, leave S and L in reach of the meter.',
  hazard: 'What stands beside them is alive. Covers protect birds; they do not insulate people.',
  asks: [
    {
      id: 'covers',
      what: 'Covers of the list on bushings, arresters and leads',
      kind: 'choice',
      options: ['all put on', 'some left for later', 'none listed here'],
    },
  ],
}

/** Bird work of the same visit that is left once the units are switched. */
export const BIRD_STEPS: readonly StepDraft[] = [
  {
    id: 'bird-method',
    text: 'Settle how the bird work that is left is done: dead and grounded, or energized with sticks or gloves by people qualified for it, as your rules allow for these parts.',
    hazard:
      'Without grounds leads and bushings count as energized. A cover that slips can carry a hand too near.',
    isHoldPoint: true,
    asks: [
      {
        id: 'method',
        what: 'What is left is done',
        kind: 'choice',
        options: ['nothing is left to do', ...METHODS, 'not today'],
      },
      confirm(
        'qualified',
        'Whoever does it is qualified for it, or nobody does it',
        'Leave it to people who are: choose “not today”, and say at the end what was not put on.',
      ),
    ],
    signedBy: 'person in charge',
  },
  {
    id: 'bird-work',
    text: 'Put on the covers and the perch of the job’s list that are left, nearest first as you move in; your rules govern. Look from below that every pair of the list is closed.',
    hazard: 'Covers protect birds from brief contact. They do not insulate people.',
    asks: [
      confirm(
        'closed',
        'Every pair of the list closed',
        'Birds can still be hurt here: say in the remark which pairs are open, and at the end what was not put on.',
      ),
      confirm(
        'grounds',
        'No grounds set for it are left on',
        'Take them off and count them before anything else is done.',
      ),
    ],
    mayBeLeftOut: true,
  },
]
