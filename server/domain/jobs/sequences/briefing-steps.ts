import { confirm, type StepDraft } from './step-draft.ts'

/**
 * What comes before every job. Subjects of the briefing after 29 CFR 1910.269(c), from memory; the
 * rest is common practice, no source.
 */
export const BRIEFING_STEPS: readonly StepDraft[] = [
  {
    id: 'procedure',
    text: 'Take out the utility’s own procedure for this work and read it. Where it differs from these steps, it governs. Which of the source and load switches goes first varies by utility.',
    isHoldPoint: true,
    asks: [confirm('read', 'Procedure read and at hand')],
    signedBy: 'person in charge',
  },
  {
    id: 'permits',
    text: 'Call the dispatcher. Get the clearances and permits that the work needs, and have reclosing upstream held off where the procedure asks for it.',
    hazard: 'Without it a fault at this pole may be closed onto again.',
    isHoldPoint: true,
    asks: [
      confirm(
        'granted',
        'Clearances and permits granted',
        'Nobody works without them: leave all as it stands until the dispatcher has given them.',
      ),
      {
        id: 'number',
        what: 'Number of the clearance, or who gave it',
        kind: 'text',
        isNeeded: false,
      },
    ],
    signedBy: 'person in charge',
  },
  {
    id: 'right-pole',
    text: 'Read the tag of this pole and of the poles next to it. Compare them, and what hangs here, with the job.',
    hazard: 'At the wrong pole every later step is wrong.',
    isHoldPoint: true,
    asks: [
      { id: 'tag', what: 'Number on the tag', kind: 'text' },
      confirm(
        'same',
        'Pole, neighbours and equipment are those of the job',
        'This may be the wrong pole: touch nothing and call in. If the job is wrong, give it back.',
      ),
    ],
  },
  {
    id: 'look-over',
    text: 'Look the pole over before anyone goes up: butt, checks, top, guys, ground wire, hardware, leaks. Look for nests, eggs and young birds.',
    hazard:
      'A pole that is weak at the ground may fall when its load changes. A nest in use stops the work.',
    isHoldPoint: true,
    asks: [
      confirm(
        'sound',
        'Fit to be worked on',
        'Nobody goes up: keep clear of the pole, call in, and give the job back.',
      ),
      confirm(
        'no-nest',
        'No nest with eggs or young',
        'The law protects it: touch nothing, keep away, and call whoever looks after birds at the utility.',
      ),
      { id: 'seen', what: 'What was seen', kind: 'text', isNeeded: false },
    ],
    signedBy: 'two of the crew',
  },
  {
    id: 'tailboard',
    text: 'Hold the briefing at the pole with everybody: the hazards, the procedure, special precautions, sources of energy, protective equipment. Say aloud the approach distance and who watches.',
    isHoldPoint: true,
    asks: [
      confirm(
        'understood',
        'Everybody has heard it and agrees',
        'Nobody begins before everybody does: hold the briefing again.',
      ),
    ],
    signedBy: 'person in charge',
  },
  {
    id: 'work-zone',
    text: 'Set up the work zone: traffic, truck grounded and chocked, outriggers on firm ground, cover-up on what could be touched.',
    hazard: 'Keep the approach distance of the job with body, tools and boom.',
    asks: [confirm('ready', 'Work zone ready')],
  },
]
