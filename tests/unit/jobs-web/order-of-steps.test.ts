import { describe, expect, it } from 'vitest'
import { Id } from '#domain/feeder/identifiers.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import { StepSequence } from '#domain/jobs/step-sequence.ts'
import { compareFields, mergeFields } from '../../../web/record/merge-fields.ts'
import { stepChanges } from '../../../web/record/step-in-words.ts'
import { addStep, moveStep } from '../../../web/supervisor/steps/edit-steps.ts'
import { idOfName, withOwnId } from '../../../web/supervisor/steps/new-order.ts'
import {
  bodyOfSequence,
  isSameOrder,
  type OrderBody,
  OrderDraft,
  sequenceOfBody,
  sequenceOfDraft,
} from '../../../web/supervisor/steps/order-draft.ts'
import { orderFaults } from '../../../web/supervisor/steps/order-faults.ts'
import {
  fieldsOfOrder,
  orderOfFields,
  orderRecordFields,
} from '../../../web/supervisor/steps/order-fields.ts'
import { workTaking } from '../../../web/supervisor/steps/work-taking.ts'

const shipped = SHIPPED_SEQUENCES.map((sequence) => [sequence.id, sequence] as const)

function shippedBody(id: string): OrderBody {
  const found = SHIPPED_SEQUENCES.find((sequence) => sequence.id === id)
  if (!found) throw new Error(`Expected an order "${id}" to come with the program.`)
  return bodyOfSequence(found)
}

describe('an order of steps in the editor', () => {
  it.each(shipped)('loses nothing of %s on its way in and out', (_, sequence) => {
    const body = bodyOfSequence(sequence)
    expect(StepSequence.parse(sequenceOfBody(body))).toEqual(sequence)
    expect(
      OrderDraft.parse(JSON.parse(JSON.stringify({ body, version: 0, base: body }))).body,
    ).toEqual(body)
  })

  it.each(shipped)('may be set as %s comes with the program', (_, sequence) => {
    const { general, bySteps, sequence: settable } = orderFaults(bodyOfSequence(sequence))
    expect(general).toEqual([])
    expect([...bySteps]).toEqual([])
    expect(settable).toEqual(sequence)
  })

  it('cannot be set while a step is empty, and says which', () => {
    const body = shippedBody('change-out')
    const { steps, added } = addStep(body.steps, body.steps[2]?.id ?? null)
    const faults = orderFaults({ ...body, steps })
    expect(faults.sequence).toBeNull()
    expect(faults.bySteps.get(added)).toEqual(['Step 4 does not say what is done.'])
  })

  it('cannot be set with the bypass closed before neutral is proven, and says so at that step', () => {
    const body = shippedBody('change-out')
    const steps = body.steps.filter(({ action }) => action !== 'prove neutral')
    const closing = steps.find(({ action }) => action === 'close the bypass')
    const faults = orderFaults({ ...body, steps })
    expect(faults.sequence).toBeNull()
    expect(faults.bySteps.get(closing?.id ?? '')?.join(' ')).toMatch(
      /step \d+ cannot close the bypass/,
    )
  })

  it('cannot be set with a hold point that asks for nothing', () => {
    const body = shippedBody('change-settings')
    const hold = body.steps.find(({ isHoldPoint }) => isHoldPoint)
    const steps = body.steps.map((step) => (step === hold ? { ...step, asks: [] } : step))
    const faults = orderFaults({ ...body, steps })
    expect(faults.sequence).toBeNull()
    expect(faults.bySteps.get(hold?.id ?? '')?.join(' ')).toContain('asks for no reading')
  })

  it('cannot be set while a limit of a reading is no number, and takes one with a comma or a minus', () => {
    const body = shippedBody('change-out')
    const withLeast = (least: string) =>
      orderFaults({
        ...body,
        steps: body.steps.map((step) =>
          step.id === 'found'
            ? {
                ...step,
                asks: step.asks.map((asked) => (asked.id === 'tap' ? { ...asked, least } : asked)),
              }
            : step,
        ),
      })
    expect(withLeast('none').bySteps.get('found')?.[0]).toContain('a limit of a reading')
    for (const [typed, least] of [
      ['−16', -16],
      ['-8,5', -8.5],
      ['', undefined],
    ] as const) {
      const step = withLeast(typed).sequence?.steps.find(({ id }) => id === 'found')
      const [tap] = step?.asks ?? []
      expect(tap?.kind === 'number' && { id: tap.id, least: tap.least }).toEqual({
        id: 'tap',
        least,
      })
    }
  })

  it('moves a step by one place and stops at the ends', () => {
    const { steps } = shippedBody('change-settings')
    const [first, second] = steps.map(({ id }) => id)
    const moved = moveStep(steps, first ?? '', 1)
    expect(moved.slice(0, 2).map(({ id }) => id)).toEqual([second, first])
    expect(moveStep(steps, first ?? '', -1)).toEqual(steps)
    expect(moveStep(steps, steps.at(-1)?.id ?? '', 1)).toEqual(steps)
  })

  it('gives a new step an id that no other has', () => {
    const { steps } = shippedBody('change-settings')
    const once = addStep(steps, null)
    const twice = addStep(once.steps, null)
    expect(new Set(twice.steps.map(({ id }) => id)).size).toBe(steps.length + 2)
  })

  it('is the same as it came with the program after a change was taken back', () => {
    const body = shippedBody('set-bank')
    const changed = { ...body, name: 'Ours' }
    expect(isSameOrder(changed, body)).toBe(false)
    expect(isSameOrder({ ...changed, name: body.name }, body)).toBe(true)
  })
})

describe('an order of steps that is added', () => {
  const records = SHIPPED_SEQUENCES.map((sequence) => ({
    sequence,
    version: 0,
    changedBy: null,
    changedAt: null,
  }))
  const settings = shippedBody('change-settings')

  it('has its id from its name, and no id that another has', () => {
    expect(idOfName('Our own  Change-out, §4', [])).toBe('our-own-change-out-4')
    expect(idOfName('Change out', ['change-out', 'change-out-2'])).toBe('change-out-3')
    expect(idOfName('—', [])).toBe('order')
    expect(Id.safeParse(idOfName('é'.repeat(120), [])).success).toBe(true)
  })

  it('cannot have the name of another, which crews tell it by', () => {
    const copy = withOwnId({ ...settings, name: ` ${settings.name.toUpperCase()} ` }, records)
    expect(copy.id).not.toBe(settings.id)
    expect(orderFaults(copy, records).general.join(' ')).toContain('Another order of steps')
    expect(orderFaults({ ...copy, name: 'Ours' }, records).sequence).not.toBeNull()
    expect(orderFaults(settings, records).general).toEqual([])
  })

  it('says which jobs would take it, and which it stands behind', () => {
    expect(workTaking('change-settings', records)).toEqual(['change the settings of a bank'])
    expect(workTaking('remove-bypassed', records)).toEqual([
      'remove a regulator bank that is out of service',
    ])
    const behind = { sequence: { ...sequenceOfDraft(settings), id: 'later' } }
    expect(workTaking('later', [...records, behind])).toEqual([])
    const before = { sequence: { ...sequenceOfDraft(settings), id: 'before' } }
    expect(workTaking('before', [...records, before])).toHaveLength(1)
  })

  it('is taken by some job for each that comes with the program', () => {
    for (const { sequence } of records) expect(workTaking(sequence.id, records)).not.toEqual([])
  })
})

describe('two people changing one order of steps', () => {
  const base = shippedBody('change-settings')
  const [first, second, third] = base.steps

  it('keeps both where they changed different steps', () => {
    const mine = withText(base, first?.id, 'Mine.')
    const theirs = withText(base, second?.id, 'Theirs.')
    const merged = merge(base, mine, theirs)
    expect(merged.steps[0]?.text).toBe('Mine.')
    expect(merged.steps[1]?.text).toBe('Theirs.')
    expect(merged.steps.map(({ id }) => id)).toEqual(base.steps.map(({ id }) => id))
  })

  it('leaves out a step that one removed and keeps one that the other added', () => {
    const mine = { ...base, steps: base.steps.filter(({ id }) => id !== third?.id) }
    const { steps, added } = addStep(base.steps, first?.id ?? null)
    const merged = merge(base, mine, { ...base, steps })
    const ids = merged.steps.map(({ id }) => id)
    expect(ids).toContain(added)
    expect(ids).not.toContain(third?.id)
  })

  function merge(was: OrderBody, mine: OrderBody, theirs: OrderBody): OrderBody {
    const keys = orderRecordFields([was, mine, theirs]).map(({ key }) => key)
    const compared = compareFields(
      keys,
      fieldsOfOrder(was),
      fieldsOfOrder(mine),
      fieldsOfOrder(theirs),
    )
    // Where both changed the order of the steps, theirs is taken here.
    return orderOfFields(was.id, mergeFields(compared, {}))
  }

  function withText(body: OrderBody, id: string | undefined, text: string): OrderBody {
    return {
      ...body,
      steps: body.steps.map((step) => (step.id === id ? { ...step, text } : step)),
    }
  }
})

describe('the history of an order of steps', () => {
  it('tells which step was changed, from what to what, and where the order is another', () => {
    const [one, two, ...rest] = SHIPPED_SEQUENCES[0]?.steps ?? []
    if (!one || !two) throw new Error('Expected an order of at least two steps.')
    const told = stepChanges([one, two, ...rest], [two, { ...one, hazard: 'Hot oil' }, ...rest])
    expect(told).toHaveLength(2)
    expect(told[0]?.label).toMatch(/^Step “\w/)
    expect(told[0]?.to).toContain('Hazard: Hot oil.')
    expect(told[1]?.label).toBe('Order')
  })
})
