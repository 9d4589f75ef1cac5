import { phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import type { Regulator } from '../feeder/equipment.ts'
import { isBypassed } from '../feeder/is-bypassed.ts'
import { bypassInWords } from './bypass-current.ts'
import type { DraftScene } from './draft-scene.ts'
import type { BankWork, Hazard } from './job-plan.ts'
import { positionInWords } from './position-in-words.ts'

const PRACTICE = 'common practice, no source'

/** What a bypass does off neutral, and what a bank that hangs under its bypass asks for. */
export function bypassHazards({ bank, kind }: DraftScene): Hazard[] {
  if (!bank || kind === 'change settings') return []
  const { standing } = bank
  const { pole } = bank.regulator
  return [
    { ...offNeutral(bank), pole },
    ...(standing && isBypassed(standing) ? [{ ...standsBypassed(standing), pole }] : []),
    ...(kind === 'take a bank out of service' ? [{ ...STAYS_BYPASSED, pole }] : []),
  ]
}

function offNeutral({ loopOhm, neutralV }: BankWork): Hazard {
  return {
    about: 'bypass',
    what: `Never close a bypass or set a jumper across a unit that is off neutral. ${bypassInWords(neutralV, loopOhm)} A position just off neutral is not a safe one: the winding limits the current less there than its volts suggest.`,
    source:
      'Volts of one step by IEEE C57.15 (from memory); current by Ohm’s law with the loop impedance that was set for the job',
  }
}

/** Recorded positions may not be those at the pole: the crew of a later job looks. */
function standsBypassed(standing: Regulator): Hazard {
  const left = phasesOfMask(phaseMask(standing.phases))
    .map((phase) => `${phase} ${positionInWords(standing[`tap${phase}`])}`)
    .join(', ')
  return {
    about: 'bypass',
    what: `The bank hangs bypassed: the closed bypasses carry the line, and opening one before another way is closed cuts off who is beyond, with an arc. Positions recorded as left: ${left}. Prove neutral at each unit before it has source and load closed at once.`,
    source: `Positions as recorded in the feeder; ${PRACTICE}`,
  }
}

const STAYS_BYPASSED: Hazard = {
  about: 'bypass',
  what: 'The units stay on the pole off the line. Bypasses and leads beside them stay alive, and once the grounds are off a unit counts as energized again. Tag the switches and the control of each unit, so that nobody opens a bypass or closes a switch before the bank is returned to service.',
  source: PRACTICE,
}
