import { describe, expect, it } from 'vitest'
import { takeAction } from '#domain/jobs/bank-switches.ts'
import { StepSequence } from '#domain/jobs/step-sequence.ts'
import { UNIT_ACTIONS, type UnitAction } from '#domain/jobs/unit-action.ts'
import {
  IN_SERVICE,
  NOT_YET_SET,
  startOfUnit,
  UNDER_BYPASS,
  type UnitState,
} from '#domain/jobs/unit-state.ts'

/*
 * Order of switches: NAVFAC MO-201, 3.3.8 and figure 3-10. What goes beyond it is common practice,
 * no source.
 */

function stateAfter(start: UnitState, actions: readonly UnitAction[]): UnitState {
  return actions.reduce((state, action) => {
    const outcome = takeAction(state, action)
    if (!outcome.ok) throw new Error(`${action}: ${outcome.why.join(' ')}`)
    return outcome.state
  }, start)
}

function whyNot(state: UnitState, action: UnitAction): string {
  const outcome = takeAction(state, action)
  return outcome.ok ? '' : outcome.why.join(' ')
}

const TO_NEUTRAL: readonly UnitAction[] = [
  'run to neutral',
  'prove neutral',
  'make the tap drive inoperative',
]
const OFF_THE_LINE = [
  'close the bypass',
  'open the load switch',
  'open the source switch',
  'open the neutral-side switch',
] as const

const proven = stateAfter(IN_SERVICE, TO_NEUTRAL)
const bypassed = stateAfter(proven, ['close the bypass'])
const isolated = stateAfter(proven, OFF_THE_LINE)
const grounded = stateAfter(isolated, ['test dead and ground'])

describe('a bypass', () => {
  it('is not closed on a unit in service whose tap nobody knows', () => {
    const why = whyNot(IN_SERVICE, 'close the bypass')
    expect(why).toContain('Neutral is not proven')
    expect(why).toContain('tap drive')
  })

  it('is not closed on a unit that was run to neutral but not proven', () => {
    const state = stateAfter(IN_SERVICE, ['run to neutral', 'make the tap drive inoperative'])
    expect(whyNot(state, 'close the bypass')).toContain('at least two independent signs')
  })

  it('is not closed while the drive can still move the unit off the neutral that was proven', () => {
    const state = stateAfter(IN_SERVICE, ['run to neutral', 'prove neutral'])
    expect(whyNot(state, 'close the bypass')).toContain('make it inoperative')
  })

  it('is not closed on a proof from before the drive was restored or the unit tapped', () => {
    const restored = stateAfter(proven, ['restore the tap drive', 'make the tap drive inoperative'])
    expect(whyNot(restored, 'close the bypass')).toContain('Neutral is not proven')
    const tapped = stateAfter(proven, [
      'restore the tap drive',
      'tap through raise and lower',
      'make the tap drive inoperative',
    ])
    expect(whyNot(tapped, 'close the bypass')).toContain('Neutral is not proven')
  })

  it('is closed at proven neutral with the drive inoperative', () => {
    expect(bypassed.isBypassClosed).toBe(true)
  })

  it('is not opened where nothing else carries the line', () => {
    expect(whyNot(isolated, 'open the bypass')).toContain('interrupt the customers')
    expect(whyNot(NOT_YET_SET, 'open the bypass')).toContain('interrupt the customers')
  })
})

describe('the taps', () => {
  it('are never moved while bypass, source and load switch are all closed', () => {
    for (const action of ['run to neutral', 'tap through raise and lower'] as const) {
      expect(whyNot(bypassed, action)).toContain('shorts the series winding')
    }
    expect(whyNot(bypassed, 'restore the tap drive')).toContain('shorts the series winding')
  })

  it('are tried under bypass once the load switch is open', () => {
    const open = stateAfter(bypassed, ['open the load switch', 'restore the tap drive'])
    expect(whyNot(open, 'tap through raise and lower')).toBe('')
  })

  it('are not proven at neutral while the control may still move them', () => {
    expect(whyNot(IN_SERVICE, 'prove neutral')).toContain('set it to manual')
  })
})

describe('source and load switch', () => {
  it('stay closed while the unit alone carries the line', () => {
    expect(whyNot(proven, 'open the load switch')).toContain('interrupt the customers')
    expect(whyNot(proven, 'open the source switch')).toContain('interrupt the customers')
  })

  it('are opened in either order under bypass: the procedure of the utility says which', () => {
    const load = stateAfter(bypassed, ['open the load switch', 'open the source switch'])
    const source = stateAfter(bypassed, ['open the source switch', 'open the load switch'])
    expect(load).toEqual(source)
  })

  it('are not closed onto grounds, without a unit, or with the neutral side open', () => {
    expect(whyNot(grounded, 'close the source switch')).toContain('Grounds are on')
    expect(whyNot(NOT_YET_SET, 'close the load switch')).toContain('No unit hangs there')
    expect(whyNot(UNDER_BYPASS, 'close the source switch')).toContain('neutral-side switch is open')
  })

  it('are not both closed under bypass before neutral is proven', () => {
    const half = stateAfter(UNDER_BYPASS, [
      'close the neutral-side switch',
      'close the source switch',
    ])
    expect(whyNot(half, 'close the load switch')).toContain('Neutral is not proven')
  })
})

describe('the neutral-side switch', () => {
  it('is not opened while source or load switch is closed', () => {
    expect(whyNot(bypassed, 'open the neutral-side switch')).toContain('still on the line')
    const half = stateAfter(bypassed, ['open the load switch'])
    expect(whyNot(half, 'open the neutral-side switch')).toContain('still on the line')
  })

  it('cannot be worked where the order of steps knows none', () => {
    expect(
      whyNot({ ...isolated, neutralSide: 'solid' }, 'close the neutral-side switch'),
    ).toContain('no neutral-side switch')
  })
})

/** Every order of some actions. */
function ordersOf(actions: readonly UnitAction[]): UnitAction[][] {
  if (actions.length === 0) return [[]]
  return actions.flatMap((first) =>
    ordersOf(actions.filter((action) => action !== first)).map((rest) => [first, ...rest]),
  )
}

function isAllowed(start: UnitState, actions: readonly UnitAction[]): boolean {
  let state = start
  for (const action of actions) {
    const outcome = takeAction(state, action)
    if (!outcome.ok) return false
    state = outcome.state
  }
  return true
}

/** NAVFAC MO-201, 3.3.8 and figure 3-10; which line switch goes first is left to the utility. */
describe('of all orders of the four switches', () => {
  it('only bypass, line switches, neutral side takes a unit out of service', () => {
    const [bypass, load, source, neutralSide] = OFF_THE_LINE
    expect(ordersOf(OFF_THE_LINE).filter((order) => isAllowed(proven, order))).toEqual([
      [bypass, load, source, neutralSide],
      [bypass, source, load, neutralSide],
    ])
  })

  it('only the reverse brings it back', () => {
    const back = [
      'open the bypass',
      'close the load switch',
      'close the source switch',
      'close the neutral-side switch',
    ] as const
    const [bypass, load, source, neutralSide] = back
    expect(ordersOf(back).filter((order) => isAllowed(isolated, order))).toEqual([
      [neutralSide, load, source, bypass],
      [neutralSide, source, load, bypass],
    ])
  })
})

describe('the temporary jumper', () => {
  it('is not put across a unit that is off neutral', () => {
    expect(whyNot(IN_SERVICE, 'install the jumper')).toContain('Neutral is not proven')
  })

  it('is put beside a closed bypass when the unit is off the line', () => {
    expect(whyNot(isolated, 'install the jumper')).toBe('')
  })

  it('is taken off only where bypass or unit joins both sides', () => {
    const alone = stateAfter(isolated, ['install the jumper', 'open the bypass'])
    expect(whyNot(alone, 'remove the jumper')).toContain('Nothing else carries the line')
    const besideUnit = stateAfter(proven, ['install the jumper'])
    expect(whyNot(besideUnit, 'remove the jumper')).toBe('')
  })
})

describe('grounds and lifting', () => {
  it('go on only when the unit is off line and neutral and its drive has no supply', () => {
    expect(whyNot(bypassed, 'test dead and ground')).toContain(
      'open its source and its load switch',
    )
    const onNeutral = stateAfter(proven, OFF_THE_LINE.slice(0, 3))
    expect(whyNot(onNeutral, 'test dead and ground')).toContain('not isolated')
    const supplied = stateAfter(isolated, ['restore the tap drive'])
    expect(whyNot(supplied, 'test dead and ground')).toContain('feed back')
  })

  it('come before a unit is taken down or set: what is not grounded is not dead', () => {
    expect(whyNot(isolated, 'take the unit down')).toContain('not grounded is not dead')
    expect(whyNot(NOT_YET_SET, 'set the unit')).toContain('not grounded is not dead')
    expect(whyNot(grounded, 'take the unit down')).toBe('')
  })

  it('come off the line first: a unit in service is neither grounded nor lifted', () => {
    for (const action of ['test dead and ground', 'take the unit down'] as const) {
      expect(whyNot(IN_SERVICE, action)).toContain('open its source and its load switch')
    }
  })

  it('keep the drive without supply while they are on', () => {
    expect(whyNot(grounded, 'restore the tap drive')).toContain('Grounds are on')
  })
})

describe('what is recorded already', () => {
  it('is not recorded a second time for a switch, jumper or unit', () => {
    const second = UNIT_ACTIONS.filter((action) => whyNot(IN_SERVICE, action).includes('already'))
    expect(second).toEqual([
      'open the bypass',
      'close the source switch',
      'close the load switch',
      'close the neutral-side switch',
      'remove the jumper',
      'remove the grounds',
      'set the unit',
    ])
  })
})

describe('before the first step', () => {
  const sequence = (actions: readonly UnitAction[], more: Partial<StepSequence> = {}) =>
    StepSequence.parse({
      id: 's',
      name: 's',
      forKinds: ['inspection'],
      source: '',
      steps: [
        { id: 'start', text: 'Start' },
        ...actions.map((action, index) => ({ id: `s${index}`, text: action, action })),
      ],
      ...more,
    })
  const bypassedOrder = (...actions: readonly UnitAction[]) =>
    sequence(actions, { bankAtStart: 'bypassed' })
  const SOLID = { neutralSide: 'solid' } as const
  const SWITCHED = { neutralSide: 'switched' } as const

  it('a new bank is not there yet and the line runs straight on', () => {
    const start = startOfUnit('set a bank', sequence(['test dead and ground', 'set the unit']))
    expect(start).toEqual({ ...NOT_YET_SET, ...SOLID })
    expect(startOfUnit('set a bank', bypassedOrder('close the source switch')).isUp).toBe(false)
  })

  it('a standing bank is in service at a tap that nobody knows', () => {
    const order = sequence(['run to neutral', 'open the neutral-side switch'])
    expect(startOfUnit('remove a bank', order)).toEqual(IN_SERVICE)
  })

  it('a bank that hangs bypassed is off the line, where the order begins with it so', () => {
    const start = startOfUnit('remove a bank', bypassedOrder('take the unit down'))
    expect(start).toEqual({ ...UNDER_BYPASS, ...SOLID })
    expect(start).toMatchObject({ tap: 'unknown', isDriveOperative: true, isGrounded: false })
  })

  it('stands as the order says, whatever switch it begins with', () => {
    const order = { bankAtStart: 'in service' } as const
    expect(startOfUnit('inspection', sequence(['close the source switch'], order))).toEqual({
      ...IN_SERVICE,
      ...SOLID,
    })
  })

  it('stands as the first switch tells where an older order does not say it', () => {
    const back: readonly UnitAction[] = ['close the neutral-side switch', 'close the source switch']
    for (const kind of ['inspection', 'change out a bank', 'set a bank'] as const) {
      expect(startOfUnit(kind, sequence(back))).toEqual(UNDER_BYPASS)
    }
    expect(
      startOfUnit('inspection', sequence(['close the bypass', 'open the load switch'])),
    ).toEqual({ ...IN_SERVICE, ...SOLID })
  })

  it('a neutral-side switch that the order does not work is closed in service, and open off the line', () => {
    const plain: readonly UnitAction[] = ['run to neutral']
    const start = (order: StepSequence) => startOfUnit('remove a bank', order, SWITCHED).neutralSide
    expect(start(sequence(plain))).toBe('solid')
    expect(start(bypassedOrder(...plain))).toBe('open')
    expect(startOfUnit('set a bank', sequence(plain), SWITCHED).neutralSide).toBe('open')
    expect(startOfUnit('set a bank', sequence(plain), SOLID).neutralSide).toBe('solid')
  })
})
