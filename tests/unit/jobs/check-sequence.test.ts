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

describe('an order for a bank with a neutral-side switch', () => {
  it('opens it before it grounds the unit', () => {
    const broken = faults(moved(changeOut, 'open-neutral-side', 'set-unit'))
    expect(broken).toContain(
      'For “change out a bank” at a bank with a neutral-side switch, step “test-dead” cannot',
    )
    expect(broken).toContain('The neutral-side switch is still closed')
  })

  it('opens it only with source and load switch open', () => {
    expect(faults(moved(changeOut, 'open-neutral-side', 'open-source'))).toContain(
      'step “open-neutral-side” cannot open the neutral-side switch: The unit is still on the line',
    )
  })

  it('closes it before a unit that hung off the line comes under voltage', () => {
    expect(faults(without(shipped('return-to-service'), 'close-neutral-side'))).toContain(
      'step “close-source” cannot close the source switch: The neutral-side switch is open',
    )
    expect(faults(moved(changeOut, 'close-neutral-side', 'close-load'))).toContain(
      'The neutral-side switch is open',
    )
  })

  it('says that its steps are not for a bank without one', () => {
    expect(faults(withStep(changeOut, 'open-neutral-side', { onlyWith: undefined }))).toContain(
      'Step “open-neutral-side” works a neutral-side switch, which not every bank has',
    )
  })

  it('is not asked for by one that leaves it closed all along', () => {
    const plain = without(shipped('remove-bank'), 'open-neutral-side')
    expect(checkSequence(plain)).toEqual([])
  })

  it('leaves something to do where a bank has none', () => {
    const only = shipped('inspection-round').steps.map((step) => ({
      ...step,
      onlyWith: 'a neutral-side switch' as const,
    }))
    expect(faults({ ...shipped('inspection-round'), steps: only })).toContain(
      'For “inspection”, no step is left.',
    )
  })
})

describe('how the bank stands at the start', () => {
  const startFaults = (id: string, change: Partial<StepSequence>) =>
    faults({ ...shipped(id), ...change })

  it('is none where a bank is set, so such an order is for nothing else', () => {
    expect(startFaults('set-bank', { forKinds: ['change out a bank', 'set a bank'] })).toContain(
      'Where a bank is set none stands at the start, and where one is to change out a bank',
    )
    expect(startFaults('set-bank', { bankAtStart: 'bypassed' })).toContain(
      'none stands at the start',
    )
    expect(
      startFaults('return-to-service', { forKinds: ['set a bank'], bankAtStart: undefined }),
    ).toContain('the order cannot begin with one bypassed')
  })

  it('is in service where one is taken out, and bypassed where one is returned', () => {
    expect(startFaults('out-of-service', { bankAtStart: 'bypassed' })).toContain(
      'For “take a bank out of service” the bank stands in service at the start, not bypassed.',
    )
    expect(startFaults('return-to-service', { bankAtStart: 'in service' })).toContain(
      'For “return a bank to service” the bank stands bypassed at the start, not in service.',
    )
    expect(startFaults('change-settings', { bankAtStart: 'bypassed' })).toContain(
      'For “change settings” the bank stands in service',
    )
  })

  it('is told by the first switch where the order does not say it', () => {
    for (const id of ['change-out', 'remove-bank', 'out-of-service', 'return-to-service']) {
      expect(startFaults(id, { bankAtStart: undefined })).toBe('')
    }
    expect(startFaults('remove-bypassed', { bankAtStart: undefined })).toContain(
      'The unit is still on the line',
    )
  })

  it('does not matter to an order that works nothing at a bank', () => {
    const round = shipped('inspection-round')
    expect(
      checkSequence({ ...round, forKinds: ['set a bank', 'inspection', 'remove a bank'] }),
    ).toEqual([])
  })
})

describe('the end of an order', () => {
  const faultsFor = (
    id: string,
    kind: StepSequence['forKinds'][number],
    gone: readonly string[] = [],
  ) =>
    faults({
      ...gone.reduce((sequence, step) => without(sequence, step), shipped(id)),
      forKinds: [kind],
    })

  it('leaves no unit hanging that was to go', () => {
    expect(faultsFor('remove-bank', 'remove a bank', ['take-down'])).toContain(
      'it still hangs there',
    )
    expect(faultsFor('out-of-service', 'remove a bank')).toContain('it still hangs there')
  })

  it('leaves a unit off the line, its drive inoperative, where it is taken out of service', () => {
    expect(faultsFor('change-settings', 'take a bank out of service')).toContain(
      'it still carries the line',
    )
    expect(faultsFor('out-of-service', 'take a bank out of service', ['open-source'])).toContain(
      'only one of source and load switch is closed',
    )
    expect(faultsFor('remove-bank', 'take a bank out of service')).toContain('no unit hangs there')
  })

  it('leaves a unit in service where it is returned, set otherwise or changed out', () => {
    for (const kind of ['return a bank to service', 'change out a bank'] as const) {
      expect(faultsFor('remove-bypassed', kind)).toContain('it does not carry the line')
    }
    expect(faultsFor('out-of-service', 'change settings')).toContain('it does not carry the line')
  })

  it('leaves a bank as it was found where the job is on none', () => {
    expect(faultsFor('change-settings', 'inspection')).toBe('')
    expect(faultsFor('out-of-service', 'inspection')).toContain('it does not stand as it was found')
    expect(faultsFor('remove-bypassed', 'retrofit round')).toContain('as it was found')
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

  it.each([
    ['change-out', 'close-bypass', 'close the bypass'],
    ['change-out', 'open-load', 'open the load switch'],
    ['change-out', 'open-source', 'open the source switch'],
    ['change-out', 'open-neutral-side', 'open the neutral-side switch'],
    ['change-out', 'close-neutral-side', 'close the neutral-side switch'],
    ['change-out', 'take-down', 'take the unit down'],
    ['change-out', 'set-unit', 'set the unit'],
    ['change-out', 'close-source', 'close the source switch'],
    ['change-out', 'close-load', 'close the load switch'],
    ['change-out', 'open-bypass', 'open the bypass'],
    ['change-out', 'install-jumper', 'install the jumper'],
    ['change-out', 'jumper-off', 'remove the jumper'],
    ['change-out', 'test-dead', 'test dead and ground'],
    ['change-out', 'grounds-off', 'remove the grounds'],
    ['change-out', 'prove-neutral', 'prove neutral'],
    ['change-out', 'drive-inoperative', 'make the tap drive inoperative'],
  ])('where %s has step %s to %s and holds nothing up', (order, id, action) => {
    expect(faults(withStep(shipped(order), id, { isHoldPoint: false }))).toContain(
      `Step “${id}” is to ${action}: it has to be a hold point.`,
    )
  })

  it('not where it only moves a tap whose neutral is proven after it', () => {
    for (const id of ['run-to-neutral', 'give-drive-power', 'watch-taps']) {
      expect(faults(withStep(changeOut, id, { isHoldPoint: false }))).toBe('')
    }
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

  it('where volts follow taps, but neither those at neutral nor the steps are asked for', () => {
    for (const gone of ['at-neutral', 'steps-up']) {
      const asks = changeOut.steps
        .find(({ id }) => id === 'tap-through')
        ?.asks.filter(({ id }) => id !== gone)
      expect(faults(withStep(changeOut, 'tap-through', { asks: asks ?? [] }))).toContain(
        'by “volts rise with raises”: ask in it, as needed, for the volts at neutral',
      )
    }
  })

  it('where volts are to follow the taps of a unit that is fed from its load side alone', () => {
    const back = shipped('return-to-service')
    const loadFirst = moved(
      moved(back, 'close-source', 'open-bypass'),
      'close-load',
      'give-drive-power',
    )
    expect(faults(loadFirst)).toContain(
      'step “tap-through” reads volts that are to follow the tap of a unit that is not fed from its source side',
    )
  })

  it('where no reading lies in the range that it takes', () => {
    const asks: Step['asks'] = [
      { id: 'tap', what: 'Tap', kind: 'number', unit: '', isNeeded: true, least: 16, most: -16 },
    ]
    expect(faults(withStep(changeOut, 'found', { asks }))).toContain(
      'asks for “tap” of at least 16 and at most -16: none is.',
    )
  })

  it('where it says what a no means and takes a no as it is', () => {
    const asks: Step['asks'] = [
      { id: 'ok', what: 'Well', kind: 'yes or no', isNeeded: true, ifNo: 'Call in.' },
    ]
    expect(faults(withStep(changeOut, 'work-zone', { asks }))).toContain(
      'judge it by “must be yes”',
    )
  })

  it('where it asks twice under one id', () => {
    const asks = changeOut.steps.find(({ id }) => id === 'found')?.asks ?? []
    expect(
      faults(withStep(changeOut, 'found', { asks: [...asks, ...asks.slice(0, 1)] })),
    ).toContain('Step “found” asks twice under the id “tap”.')
  })
})
