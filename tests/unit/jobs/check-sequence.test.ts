import { describe, expect, it } from 'vitest'
import { checkSequence } from '#domain/jobs/check-sequence.ts'
import { SHIPPED_SEQUENCES } from '#domain/jobs/sequences/shipped-sequences.ts'
import type { Step, StepSequence } from '#domain/jobs/step-sequence.ts'

const shipped = (id: string): StepSequence => {
  const found = SHIPPED_SEQUENCES.find((sequence) => sequence.id === id)
  if (!found) throw new Error(`There is no sequence ${id}.`)
  return found
}

const changeOut = shipped('change-out')

const withSteps = (sequence: StepSequence, change: (steps: Step[]) => Step[]): StepSequence => ({
  ...sequence,
  steps: change([...sequence.steps]),
})

const without = (sequence: StepSequence, id: string) =>
  withSteps(sequence, (steps) => steps.filter((step) => step.id !== id))

const withStep = (sequence: StepSequence, id: string, change: Partial<Step>) =>
  withSteps(sequence, (steps) =>
    steps.map((step) => (step.id === id ? { ...step, ...change } : step)),
  )

/** Takes a step from its place and puts it right before another. */
const moved = (sequence: StepSequence, id: string, before: string) =>
  withSteps(sequence, (steps) => {
    const step = steps.find((one) => one.id === id)
    const rest = steps.filter((one) => one.id !== id)
    const at = rest.findIndex((one) => one.id === before)
    if (!step || at < 0) throw new Error(`No step ${id} or ${before}.`)
    return rest.toSpliced(at, 0, step)
  })

const faults = (sequence: StepSequence) => checkSequence(sequence).join('\n')

describe('an order of steps that comes with the program', () => {
  it.each(SHIPPED_SEQUENCES.map((sequence) => [sequence.id, sequence] as const))(
    '(%s) has no fault',
    (_id, sequence) => {
      expect(checkSequence(sequence)).toEqual([])
    },
  )
})

describe('a change-out is refused', () => {
  it.each([
    ['prove-neutral', 'Neutral is not proven'],
    ['drive-inoperative', 'The tap drive can still move the unit off neutral'],
    ['install-jumper', 'Nothing else carries the line'],
    ['close-bypass', 'Nothing else carries the line'],
    ['open-source', 'The unit is still on the line'],
    ['test-dead', 'what is not grounded is not dead'],
    ['grounds-off', 'Grounds are on the unit'],
    ['drive-inoperative-again', 'The tap drive can still move the unit off neutral'],
    ['prove-neutral-again', 'Neutral is not proven'],
    ['jumper-off', 'one step now shorts the series winding'],
    ['open-bypass', 'one step now shorts the series winding'],
    ['restore-drive', 'The tap drive is inoperative'],
  ])('without the step %s', (id, why) => {
    const broken = faults(without(changeOut, id))
    expect(broken).toContain('For “change out a bank”')
    expect(broken).toContain(why)
  })

  it('where the bypass closes before neutral is proven', () => {
    expect(faults(moved(changeOut, 'close-bypass', 'run-to-neutral'))).toContain(
      'step “close-bypass” cannot close the bypass: Neutral is not proven',
    )
  })

  it('where the unit is tapped between bypass and jumper, load switch closed', () => {
    expect(faults(moved(changeOut, 'tap-through', 'open-bypass'))).toContain(
      'one step now shorts the series winding',
    )
  })

  it('where the jumper comes off before the bypass is closed again', () => {
    expect(faults(moved(changeOut, 'jumper-off', 'bypass-again'))).toContain(
      'step “jumper-off” cannot remove the jumper: Nothing else carries the line',
    )
  })

  it('where a step that the next ones build on may be left out', () => {
    const broken = faults(withStep(changeOut, 'restore-drive', { mayBeLeftOut: true }))
    expect(broken).toContain('with step “restore-drive” left out')
  })
})

describe('a bank is not set', () => {
  const cutAt = (id: string) =>
    withSteps(shipped('set-bank'), (steps) =>
      steps.slice(
        0,
        steps.findIndex((step) => step.id === id),
      ),
    )

  it('where the order ends with the bypass closed over it', () => {
    expect(faults(cutAt('open-bypass'))).toContain('it is in service with its bypass closed')
  })

  it('where the order ends before its tap drive is restored', () => {
    expect(faults(cutAt('restore-drive'))).toContain('its tap drive is not restored')
  })

  it('where the order ends before it carries the line', () => {
    expect(faults(cutAt('close-load'))).toContain('it does not carry the line')
  })
})

describe('a step is refused', () => {
  it('under the id of another', () => {
    expect(faults(withStep(changeOut, 'found', { id: 'procedure' }))).toContain(
      'Two steps have the id “procedure”',
    )
  })

  it('as a hold point that asks for nothing', () => {
    const hold = { isHoldPoint: true, asks: [] }
    expect(faults(withStep(changeOut, 'clean-up', hold))).toContain(
      'Hold point “clean-up” asks for no reading that is needed',
    )
  })

  it('as a hold point that may be left out', () => {
    expect(faults(withStep(changeOut, 'hand-back', { mayBeLeftOut: true }))).toContain(
      'Hold point “hand-back” may be left out',
    )
  })

  it('where it closes the bypass and holds nothing up', () => {
    expect(faults(withStep(changeOut, 'close-bypass', { isHoldPoint: false }))).toContain(
      'Step “close-bypass” is to close the bypass: it has to be a hold point.',
    )
  })

  it('where neutral is proven by two signs that both come from the control', () => {
    const asks = changeOut.steps
      .find(({ id }) => id === 'prove-neutral')
      ?.asks.filter(({ id }) => id === 'lamp' || id === 'readout')
      .map((asked) => ({ ...asked, isNeeded: true }))
    expect(faults(withStep(changeOut, 'prove-neutral', { asks: asks ?? [] }))).toContain(
      'at least two signs that do not depend on each other',
    )
  })

  it('where volts across are asked for, but not what the meter can tell', () => {
    const asks = changeOut.steps
      .find(({ id }) => id === 'prove-neutral')
      ?.asks.filter(({ id }) => id !== 'resolution')
    expect(faults(withStep(changeOut, 'prove-neutral', { asks: asks ?? [] }))).toContain(
      'not what the meter can tell',
    )
  })

  it('where a yes is to be judged as a torque', () => {
    const asks: Step['asks'] = [
      {
        id: 'torque',
        what: 'Tight',
        kind: 'yes or no',
        isNeeded: true,
        judge: 'torque of shear-head fasteners',
      },
    ]
    expect(faults(withStep(changeOut, 'torque', { asks }))).toContain(
      'that takes a number, not a yes or no',
    )
  })

  it('where it asks twice under one id', () => {
    const asks = changeOut.steps.find(({ id }) => id === 'found')?.asks ?? []
    expect(
      faults(withStep(changeOut, 'found', { asks: [...asks, ...asks.slice(0, 1)] })),
    ).toContain('Step “found” asks twice under the id “tap”.')
  })
})
