import { isBypassed } from '../feeder/is-bypassed.ts'
import { type BeyondSpan, beyondSpan } from './beyond-span.ts'
import type { DraftScene } from './draft-scene.ts'
import type { JobKind } from './job-kind.ts'
import type { BankWork, Hazard } from './job-plan.ts'

/** More than this are counted. */
const MOST_NAMED = 4
const MODEL = 'Equipment and loads as recorded in the feeder'

/** What may feed the pole from beyond the bank, and capacitors that keep a charge. */
export function backfeedHazards({ bank, feeder, kind, trace, works }: DraftScene): Hazard[] {
  if (!bank || kind === 'change settings') return chargedPoles({ feeder, works })
  const { pole, span } = bank.regulator
  const beyond = beyondSpan(feeder, trace, span)
  const found = beyond ? wordsOf(beyond) : [UNKNOWN]
  return [
    ...[...found, ...hangingUnits(kind, bank)].map(
      ({ what, source }): Hazard => ({ about: 'backfeed', what, pole, source }),
    ),
    ...chargedPoles({ feeder, works }),
  ]
}

/** A unit that is off the line and still up is a transformer that can be fed from its low side. */
function hangingUnits(kind: JobKind, { standing }: BankWork): Words[] {
  const isLeft = kind === 'take a bank out of service'
  if (!isLeft && !(standing && isBypassed(standing))) return []
  return [
    {
      what: 'A unit that hangs bypassed is dead only while nothing feeds it: volts put on its control, as for a test, come out at its bushings as line volts. Take every outside supply off the control, and test and ground before a bushing is touched.',
      source: 'common practice, no source',
    },
  ]
}

interface Words {
  readonly what: string
  readonly source: string
}

const UNKNOWN: Words = {
  what: 'No power reaches this span in the model, so what may feed it from beyond is not known.',
  source: MODEL,
}

const ALWAYS: Words = {
  what: 'A customer’s own generator or inverter that nobody recorded can feed back through a transformer: nothing is dead until it is tested and grounded.',
  source: 'common practice, no source',
}

function wordsOf({ capacitors, feedingLoads, generators, openTies }: BeyondSpan): Words[] {
  return [
    ...(generators.length > 0
      ? [
          {
            what: `Generation beyond the pole can feed back: ${listed(generators.map(({ id, name, pole, ratedKw }) => `${name ?? id}, ${ratedKw} kW, at ${pole}`))}. Power may flow toward the source and the control see it.`,
            source: MODEL,
          },
        ]
      : []),
    ...(feedingLoads.length > 0
      ? [
          {
            what: `Loads beyond the pole are recorded as feeding in: ${listed(feedingLoads.map(({ id }) => id))}.`,
            source: MODEL,
          },
        ]
      : []),
    ...(capacitors.length > 0
      ? [
          {
            what: `${CHARGE} Beyond the pole: ${listed(capacitors.map(({ id, name, pole }) => `${name ?? id} at ${pole}`))}.`,
            source: `${MODEL}; ${CHARGE_SOURCE}`,
          },
        ]
      : []),
    ...(openTies.length > 0
      ? [
          {
            what: `Open ties beyond the pole could be closed from another side: ${listed(openTies.map(({ id, from, to }) => `span ${id} from ${from} to ${to}`))}.`,
            source: MODEL,
          },
        ]
      : []),
    ALWAYS,
  ]
}

/** First, so that no long list of names cuts it off. */
const CHARGE =
  'Capacitors keep a charge after they are cut off: wait for the time that their nameplate says, at least 5 minutes, then short and ground them.'
const CHARGE_SOURCE = 'discharge within 5 minutes by IEEE 18, from memory'

/** On the poles themselves, whichever side of the bank they are on. */
function chargedPoles({ feeder, works }: Pick<DraftScene, 'feeder' | 'works'>): Hazard[] {
  const poles = new Set(works.map(({ pole }) => pole))
  return feeder.equipment
    .filter(({ kind, pole }) => kind === 'capacitor' && poles.has(pole))
    .map(({ id, name, pole }) => ({
      about: 'backfeed',
      what: `${CHARGE} On this pole: ${name ?? id}.`,
      pole,
      source: `${MODEL}; ${CHARGE_SOURCE}`,
    }))
}

function listed(names: readonly string[]): string {
  const more = names.length - MOST_NAMED
  return `${names.slice(0, MOST_NAMED).join('; ')}${more > 0 ? `; and ${more} more` : ''}`
}
