import { JobEntry, type ReadValue } from '#domain/jobs/job-entry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { nextPlace, offerEntry, type StepPlace, startRun } from '#domain/jobs/job-run.ts'
import type { Asked, JudgeName } from '#domain/jobs/step-sequence.ts'

/** No order of steps is so long. */
const MOST_ENTRIES = 1000

/** Entries that take a job through all its steps, pole by pole, as a crew that does it right makes them. */
export function entriesThrough(plan: JobPlan, prefix = 'e'): JobEntry[] {
  let run = startRun(plan)
  const entries: JobEntry[] = []
  for (const { pole } of plan.poles) {
    for (let place = nextPlace(run, pole); place; place = nextPlace(run, pole)) {
      const entry = entryAt(place, pole, `${prefix}-${entries.length + 1}`, entries.length)
      const offer = offerEntry(run, entry)
      if (!offer.ok) throw new Error(`${place.step.id} was refused: ${offer.why.join(' ')}`)
      run = offer.run
      entries.push(entry)
      if (entries.length > MOST_ENTRIES) throw new Error('The job never comes to its end.')
    }
  }
  return entries
}

function entryAt({ step, phase }: StepPlace, pole: string, id: string, second: number): JobEntry {
  const needed = step.signedBy === 'two of the crew' ? ['K. Lane', 'M. Ortiz'] : ['K. Lane']
  return JobEntry.parse({
    id,
    at: new Date(Date.UTC(2026, 4, 1, 9, 0, second)).toISOString(),
    pole,
    kind: 'step done',
    stepId: step.id,
    ...(phase !== undefined && { phase }),
    values: Object.fromEntries(step.asks.map((asked) => [asked.id, valueFor(asked)])),
    signedBy: needed,
    // Readings that the plan expects no figure for pass with one.
    remark: 'Read twice.',
  })
}

const GOOD: Partial<Record<JudgeName, (asked: Asked) => ReadValue>> = {
  'position indicator at neutral': (asked) => worded(asked, /neutral|^0$/i, 0),
  'control readout at neutral': (asked) => worded(asked, /neutral|^0$/i, 0),
  'neutral lamp steady': (asked) => worded(asked, /^(?!.*\bnot\b).*\bstead/i, 0),
  'volts across at neutral': () => 0,
  'resolution of the meter': (asked) => inUnit(asked, 1),
  'source volts as expected': (asked) => inUnit(asked, 7300),
  'load volts as expected': (asked) => inUnit(asked, 7300),
  'current as expected': () => 60,
  'carries a share of the current': () => 30,
  'carries the current': () => 60,
  'rating above the current': () => 600,
  'volts rise with raises': () => 123,
  'volts fall with lowers': () => 120,
  'torque of shear-head fasteners': () => 80,
  'torque marked on the connector': () => 80,
  'must be yes': () => true,
}

function valueFor(asked: Asked): ReadValue {
  const good = asked.judge && GOOD[asked.judge]
  return good ? good(asked) : worded(asked, /./, 1)
}

function worded(asked: Asked, fitting: RegExp, number: number): ReadValue {
  switch (asked.kind) {
    case 'number':
      return number
    case 'yes or no':
      return true
    case 'choice':
      return asked.options.find((option) => fitting.test(option)) ?? asked.options[0] ?? ''
    case 'text':
      return 'neutral'
  }
}

function inUnit(asked: Asked, volts: number): number {
  const unit = asked.kind === 'number' ? asked.unit : ''
  if (unit === 'V on 120') return Math.round(volts / 6) / 10
  return unit === 'kV' ? volts / 1000 : volts
}
