import { describe, expect, it } from 'vitest'
import type { JobEntry } from '#domain/jobs/job-entry.ts'
import { JOB_KINDS } from '#domain/jobs/job-kind.ts'
import { missingForEnd, offerEntry, runOf, startRun, unitStatesAt } from '#domain/jobs/job-run.ts'
import { sequenceFor } from '#domain/jobs/sequence-for.ts'
import { sequenceForBank } from '#domain/jobs/sequence-for-bank.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import type { StepSequence } from '#domain/jobs/step-sequence.ts'
import { entriesThrough } from '../../support/walk-job.ts'
import { planBy } from './machine-plan.ts'

const items = SHIPPED_SEQUENCES.map((sequence) => ({ sequence, version: 0 }))
const stepIds = (id: string) =>
  SHIPPED_SEQUENCES.find((sequence) => sequence.id === id)?.steps.map((step) => step.id) ?? []
const placeOf = (ids: readonly string[], id: string) => {
  const at = ids.indexOf(id)
  if (at < 0) throw new Error(`There is no step ${id}.`)
  return at
}

describe('the order of steps for a job', () => {
  it.each([
    ['set a bank', 'set-bank'],
    ['change out a bank', 'change-out'],
    ['remove a bank', 'remove-bank'],
    ['change settings', 'change-settings'],
    ['retrofit round', 'cover-installation'],
    ['inspection', 'inspection-round'],
  ] as const)('to %s is %s', (kind, id) => {
    expect(sequenceFor(kind, items)?.sequence.id).toBe(id)
    expect(sequenceFor(kind, items.toReversed())?.sequence.id).toBe(id)
  })

  it('is there for every kind of job', () => {
    for (const kind of JOB_KINDS) expect(sequenceFor(kind, items)).toBeDefined()
  })

  it('at a pole that gets nothing but a perch is that for perches', () => {
    const perch = [{ kind: 'raised perch' } as const]
    const both = [...perch, { kind: 'bushing cover' } as const]
    expect(sequenceFor('retrofit round', items, perch)?.sequence.id).toBe('perch-replacement')
    expect(sequenceFor('retrofit round', items, both)?.sequence.id).toBe('cover-installation')
    expect(sequenceFor('set a bank', items, perch)?.sequence.id).toBe('set-bank')
  })

  it('is missing where the utility has set none for the kind', () => {
    expect(sequenceFor('inspection', [])).toBeUndefined()
  })
})

describe('the order of steps for a bank as it stands', () => {
  it.each([
    ['remove a bank', 'in service', 'remove-bank'],
    ['remove a bank', 'bypassed', 'remove-bypassed'],
    ['change out a bank', 'in service', 'change-out'],
    ['change out a bank', 'bypassed', 'change-out-bypassed'],
    ['take a bank out of service', 'in service', 'out-of-service'],
    ['take a bank out of service', 'bypassed', undefined],
    ['return a bank to service', 'bypassed', 'return-to-service'],
    ['return a bank to service', 'in service', undefined],
    ['change settings', 'in service', 'change-settings'],
    ['change settings', 'bypassed', undefined],
  ] as const)('to %s that is %s is %s', (kind, bankAtStart, id) => {
    for (const all of [items, items.toReversed()]) {
      expect(sequenceFor(kind, all, [], bankAtStart)?.sequence.id).toBe(id)
    }
  })
})

describe('every order of steps that comes with the program', () => {
  const words = ({ steps }: StepSequence) =>
    steps.flatMap(({ text, hazard, asks }) => [text, hazard ?? '', ...asks.map(({ what }) => what)])

  it('begins with the utility’s own procedure, which governs', () => {
    for (const { steps, source } of SHIPPED_SEQUENCES) {
      expect(steps[0]).toMatchObject({ id: 'procedure', isHoldPoint: true })
      expect(source).toContain('The utility’s own procedure governs.')
    }
  })

  it('holds until the pole is known to be the right one and everybody was briefed', () => {
    for (const { steps } of SHIPPED_SEQUENCES) {
      for (const id of ['right-pole', 'tailboard']) {
        expect(steps.find((step) => step.id === id)?.isHoldPoint).toBe(true)
      }
    }
  })

  it('lets nobody enter steps in another order than they were done', () => {
    for (const sequence of SHIPPED_SEQUENCES) {
      expect(words(sequence).join(' ')).not.toMatch(/in this order afterwards/)
    }
  })

  it('asks nobody which neutral side a unit has: the bank says it', () => {
    for (const { steps } of SHIPPED_SEQUENCES) {
      const options = steps.flatMap(({ asks }) =>
        asks.flatMap((a) => ('options' in a ? a.options : [])),
      )
      expect(options.join(' ')).not.toMatch(/SL|neutral side/i)
    }
  })

  it('says what a no means at every switch, drive and test', () => {
    for (const { steps } of SHIPPED_SEQUENCES) {
      for (const { action, asks } of steps) {
        const silent = asks.filter((asked) => asked.kind === 'yes or no' && !asked.ifNo)
        if (action && action !== 'prove neutral') expect(silent).toEqual([])
      }
    }
  })

  it('has steps short enough to be read on a phone', () => {
    for (const sequence of SHIPPED_SEQUENCES) {
      for (const text of words(sequence)) expect(text.length).toBeLessThanOrEqual(220)
    }
  })
})

describe('worked from its first step to its last, every order of steps', () => {
  const all = SHIPPED_SEQUENCES.flatMap((sequence) =>
    sequence.forKinds.flatMap((kind) =>
      (['solid', 'switched'] as const).map(
        (neutralSide) =>
          [sequence.id, kind, neutralSide, planBy(sequence, kind, { neutralSide })] as const,
      ),
    ),
  )

  it.each(all)('(%s, to %s, neutral side %s) comes to its end', (_id, _kind, _side, plan) => {
    const { run, refused } = runOf(plan, entriesThrough(plan))
    expect(refused).toEqual([])
    expect(missingForEnd(run)).toEqual([])
  })

  /* Each hold point is tried once with nothing entered and once with every yes turned into a no. */
  it.each(all)(
    '(%s, to %s, neutral side %s) stops at each hold point',
    (_id, _kind, _side, plan) => {
      let run = startRun(plan)
      let tried = 0
      for (const entry of entriesThrough(plan)) {
        const steps = plan.poles[0]?.sequence.steps ?? []
        const step = steps.find(({ id }) => entry.kind === 'step done' && id === entry.stepId)
        if (entry.kind === 'step done' && step?.isHoldPoint) {
          for (const values of [{}, turnedToNo(entry.values)]) {
            const isChanged = JSON.stringify(values) !== JSON.stringify(entry.values)
            if (isChanged) expect(offerEntry(run, { ...entry, values }).ok).toBe(false)
          }
          tried += 1
        }
        const offer = offerEntry(run, entry)
        if (offer.ok) run = offer.run
      }
      expect(tried).toBeGreaterThan(2)
    },
  )
})

function turnedToNo(values: Extract<JobEntry, { kind: 'step done' }>['values']) {
  return Object.fromEntries(
    Object.entries(values).map(([id, value]) => [id, value === true ? false : value]),
  )
}

describe('a change-out', () => {
  const ids = stepIds('change-out')

  /* Order of NAVFAC MO-201, 3.3.8: neutral, control power, bypass, line switches. */
  it('goes from neutral over control power and bypass to the line switches', () => {
    const order = ['run-to-neutral', 'prove-neutral', 'drive-inoperative', 'close-bypass']
    const places = [...order, 'open-load', 'open-source'].map((id) => placeOf(ids, id))
    expect(places).toEqual(places.toSorted((a, b) => a - b))
  })

  /* NAVFAC MO-201, 3.3.8: the neutral-side switch last of all, and first of all on the way back. */
  it('opens the neutral-side switch after both line switches, and closes it before them', () => {
    const out = ['open-load', 'open-source', 'open-neutral-side'].map((id) => placeOf(ids, id))
    const back = ['close-neutral-side', 'close-source', 'close-load'].map((id) => placeOf(ids, id))
    expect([...out, ...back]).toEqual([...out, ...back].toSorted((a, b) => a - b))
  })

  it('watches the tap before load goes through, and proves neutral again after it', () => {
    const order = ['close-source', 'tap-through', 'prove-neutral-again', 'close-load']
    const places = [...order, 'open-bypass', 'watch-taps'].map((id) => placeOf(ids, id))
    expect(places).toEqual(places.toSorted((a, b) => a - b))
  })

  it('reads taps, volts, settings and counter once the unit is back', () => {
    for (const id of ['after', 'as-left']) {
      expect(placeOf(ids, id)).toBeGreaterThan(placeOf(ids, 'watch-taps'))
    }
  })
})

/* Opened, locked and tagged, tested, grounded: order of 29 CFR 1910.269(m) and (n), from memory. */
describe('a unit that is worked on', () => {
  const ORDERS = ['set-bank', 'change-out', 'change-out-bypassed', 'remove-bank', 'remove-bypassed']

  it.each(ORDERS)('in %s has its switches locked and tagged before it is tested dead', (id) => {
    const ids = stepIds(id)
    expect(placeOf(ids, 'switches-locked')).toBeLessThan(placeOf(ids, 'test-dead'))
    if (ids.includes('open-source')) {
      expect(placeOf(ids, 'switches-locked')).toBeGreaterThan(placeOf(ids, 'open-source'))
    }
  })

  it('is locked and tagged before its bushings are tested where it is taken out of service', () => {
    const ids = stepIds('out-of-service')
    expect(placeOf(ids, 'switches-locked')).toBeLessThan(placeOf(ids, 'off-the-line'))
  })

  it.each(['remove-bank', 'remove-bypassed'])('in %s loses its grounds last', (id) => {
    const ids = stepIds(id)
    const places = ['take-down', 'leads-down', 'grounds-off'].map((step) => placeOf(ids, step))
    expect(places).toEqual(places.toSorted((a, b) => a - b))
  })

  it.each(['set-bank', 'change-out', 'change-out-bypassed'])(
    'in %s gets its covers while it is grounded, and what is left by a settled method',
    (id) => {
      const ids = stepIds(id)
      const order = ['leads', 'covers-while-dead', 'grounds-off', 'bird-method', 'bird-work']
      const places = order.map((step) => placeOf(ids, step))
      expect(places).toEqual(places.toSorted((a, b) => a - b))
    },
  )

  it.each(['set-bank', 'change-out', 'change-out-bypassed', 'return-to-service'])(
    'in %s is set when its control has its power from the unit itself, and before load goes through',
    (id) => {
      const ids = stepIds(id)
      const order = ['close-source', 'give-drive-power', 'settings', 'close-load']
      const places = order.map((step) => placeOf(ids, step))
      expect(places).toEqual(places.toSorted((a, b) => a - b))
    },
  )
})

describe('a neutral-side switch', () => {
  const actionsOf = (id: string, neutralSide: 'solid' | 'switched') =>
    sequenceForBank(SHIPPED_SEQUENCES.find((each) => each.id === id)!, {
      neutralSide,
    }).steps.flatMap(({ action }) => (action?.includes('neutral-side') ? [action] : []))

  it.each([
    ['set-bank', ['close the neutral-side switch']],
    ['change-out', ['open the neutral-side switch', 'close the neutral-side switch']],
    ['change-out-bypassed', ['close the neutral-side switch']],
    ['remove-bank', ['open the neutral-side switch']],
    ['remove-bypassed', []],
    ['out-of-service', ['open the neutral-side switch']],
    ['return-to-service', ['close the neutral-side switch']],
    ['change-settings', []],
  ] as const)('is worked in %s where there is one, and nowhere else', (id, actions) => {
    expect(actionsOf(id, 'switched')).toEqual(actions)
    expect(actionsOf(id, 'solid')).toEqual([])
  })
})

describe('units changed out for such with another neutral side', () => {
  const SIDES = [
    ['solid', 'switched', ['close the neutral-side switch']],
    ['switched', 'solid', ['open the neutral-side switch']],
  ] as const

  it.each(SIDES)('go from %s to %s by the steps of each', (standingSide, neutralSide, actions) => {
    const changeOut = SHIPPED_SEQUENCES.find(({ id }) => id === 'change-out')!
    const plan = planBy(changeOut, 'change out a bank', { neutralSide, standingSide, phases: 'AB' })
    const steps = plan.poles[0]?.sequence.steps ?? []
    expect(
      steps.flatMap(({ action }) => (action?.includes('neutral-side') ? [action] : [])),
    ).toEqual(actions)
    const { run, refused } = runOf(plan, entriesThrough(plan))
    expect(refused).toEqual([])
    expect(missingForEnd(run)).toEqual([])
    const left = neutralSide === 'switched' ? 'closed' : 'solid'
    expect(unitStatesAt(run, 'P2').B?.neutralSide).toBe(left)
  })

  it('are not energized before the new switch is closed', () => {
    const changeOut = SHIPPED_SEQUENCES.find(({ id }) => id === 'change-out-bypassed')!
    const plan = planBy(changeOut, 'change out a bank', {
      ...{ neutralSide: 'switched', standingSide: 'solid', phases: 'A' },
    })
    const entries = entriesThrough(plan)
    const closing = entries.findIndex(
      (entry) => entry.kind === 'step done' && entry.stepId === 'close-neutral-side',
    )
    expect(unitStatesAt(runOf(plan, entries.slice(0, closing)).run, 'P2').A?.neutralSide).toBe(
      'open',
    )
  })
})
