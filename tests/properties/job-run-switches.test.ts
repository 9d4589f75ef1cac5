import { describe, expect, it } from 'vitest'
import { UNIT_ACTIONS, type UnitAction } from '#domain/jobs/unit-action.ts'
import {
  IN_SERVICE,
  isBridged,
  NOT_YET_SET,
  UNDER_BYPASS,
  type UnitState,
} from '#domain/jobs/unit-state.ts'
import { faultsAt, isSafeToTouch } from './bank-faults.ts'
import { anyTap, driftsFrom, MOVES_THE_TAP, type Place, placesAfter } from './unit-walk.ts'

/*
 * Every state of one unit and its switches that any order of allowed actions comes to, together with
 * the true tap, which nobody but the unit knows. The signs that prove neutral are taken to be true:
 * what they must be is tested where they are judged.
 */

interface Move {
  readonly from: Place
  readonly action: UnitAction
  readonly to: Place
}

const SOLID = { neutralSide: 'solid' } as const
const STARTS: readonly UnitState[] = [
  IN_SERVICE,
  UNDER_BYPASS,
  NOT_YET_SET,
  { ...IN_SERVICE, ...SOLID },
  { ...UNDER_BYPASS, ...SOLID },
  { ...NOT_YET_SET, ...SOLID },
]

function movesFrom(from: Place): Move[] {
  return UNIT_ACTIONS.flatMap((action) =>
    placesAfter(from, action).map((to) => ({ from, action, to })),
  )
}

function walk(starts: readonly Place[]): { places: Map<string, Place>; moves: Move[] } {
  const places = new Map<string, Place>()
  const moves: Move[] = []
  const waiting = [...starts]
  for (let place = waiting.pop(); place; place = waiting.pop()) {
    const key = JSON.stringify(place)
    if (places.has(key)) continue
    places.set(key, place)
    const found = movesFrom(place)
    moves.push(...found)
    waiting.push(...found.map(({ to }) => to), ...driftsFrom(place))
  }
  return { places, moves }
}

const { places, moves } = walk(STARTS.flatMap(anyTap))
const reached = [...places.values()]
const told = ({ from, action }: Move) => `${action} from ${JSON.stringify(from)}`
const movesOf = (action: UnitAction) => moves.filter((move) => move.action === action)

describe('the circuit that faults are told from', () => {
  it('knows each of the faults when it is there', () => {
    const bridged = { ...IN_SERVICE, isBypassClosed: true }
    expect(faultsAt(bridged, true)).toEqual(['the series winding is shorted'])
    expect(faultsAt(bridged, false)).toEqual([])
    expect(faultsAt({ ...IN_SERVICE, isJumperOn: true }, true)).toHaveLength(1)
    expect(faultsAt({ ...IN_SERVICE, isLoadClosed: false }, false)).toEqual([
      'customers beyond are out',
    ])
    expect(faultsAt({ ...IN_SERVICE, isGrounded: true }, false)).toContain('the line is grounded')
    expect(faultsAt({ ...IN_SERVICE, neutralSide: 'open' }, false)).toEqual([
      'the neutral bushing is at line volts',
    ])
    expect(faultsAt({ ...NOT_YET_SET, isLoadClosed: true }, false)).toEqual([
      'loose leads are alive',
    ])
  })
})

describe('any order of actions that is allowed at a unit', () => {
  it('is walked to its end', () => {
    expect(reached.length).toBeGreaterThan(100)
    expect(new Set(moves.map(({ action }) => action)).size).toBe(UNIT_ACTIONS.length)
  })

  it('shorts no winding, grounds no line, floats no neutral and drops no customer', () => {
    const faulty = reached.filter(({ state, isOffNeutral }) => faultsAt(state, isOffNeutral).length)
    expect(faulty).toEqual([])
  })

  it('closes no bypass on a unit that is not proven at neutral with its drive inoperative', () => {
    const wrong = movesOf('close the bypass').filter(
      ({ from: { state } }) =>
        state.isUp && (state.tap !== 'proven at neutral' || state.isDriveOperative),
    )
    expect(wrong.map(told)).toEqual([])
  })

  it('never has the unit bridged with neutral unproven or its drive able to move', () => {
    const wrong = reached.filter(
      ({ state }) =>
        isBridged(state) && (state.tap !== 'proven at neutral' || state.isDriveOperative),
    )
    expect(wrong).toEqual([])
  })

  it('never taps a bridged unit', () => {
    const taps = moves.filter(({ action }) => MOVES_THE_TAP.includes(action))
    expect(taps.filter(({ from }) => isBridged(from.state)).map(told)).toEqual([])
  })

  it('takes tapping, restoring the drive and another unit as the end of the proof', () => {
    const still = moves.filter(
      ({ action, to }) => MOVES_THE_TAP.includes(action) && to.state.tap === 'proven at neutral',
    )
    expect(still.map(told)).toEqual([])
  })

  it('lifts a unit only with dead and grounded leads', () => {
    const lifts = [...movesOf('take the unit down'), ...movesOf('set the unit')]
    expect(lifts.length).toBeGreaterThan(0)
    expect(lifts.filter(({ from }) => !isSafeToTouch(from.state)).map(told)).toEqual([])
  })

  it('closes no line switch with grounds on or the neutral-side switch open', () => {
    const closes = [...movesOf('close the source switch'), ...movesOf('close the load switch')]
    const wrong = closes.filter(
      ({ from: { state } }) => state.isGrounded || state.neutralSide === 'open',
    )
    expect(wrong.map(told)).toEqual([])
  })

  it('grounds a unit only off line and neutral, its drive without supply', () => {
    const wrong = movesOf('test dead and ground').filter(
      ({ from: { state } }) =>
        state.isSourceClosed ||
        state.isLoadClosed ||
        state.neutralSide === 'closed' ||
        state.isDriveOperative,
    )
    expect(wrong.map(told)).toEqual([])
  })

  it('works the neutral-side switch only with source and load switch open', () => {
    const works = [
      ...movesOf('open the neutral-side switch'),
      ...movesOf('close the neutral-side switch'),
    ]
    const wrong = works.filter(({ from: { state } }) => state.isSourceClosed || state.isLoadClosed)
    expect(wrong.map(told)).toEqual([])
  })
})

const isServing = ({ state }: Place) =>
  state.isUp &&
  state.isSourceClosed &&
  state.isLoadClosed &&
  !state.isBypassClosed &&
  !state.isJumperOn &&
  state.isDriveOperative
const isOff = ({ state }: Place) =>
  !state.isSourceClosed && !state.isLoadClosed && !state.isGrounded

/** How a job may leave a unit. */
const ENDS: readonly (readonly [string, (place: Place) => boolean])[] = [
  ['in service', isServing],
  ['under bypass', (place) => isOff(place) && place.state.isUp && place.state.isBypassClosed],
  [
    'taken down, the bypass as the line',
    (place) =>
      isOff(place) && !place.state.isUp && place.state.isBypassClosed && !place.state.isJumperOn,
  ],
  [
    'taken down, the jumper as the line',
    (place) => isOff(place) && !place.state.isUp && !place.state.isBypassClosed,
  ],
]

describe('from any start', () => {
  it.each(ENDS)('a unit can be brought to be %s', (_, isEnd) => {
    for (const start of STARTS) {
      const found = [...walk(anyTap(start)).places.values()]
      expect(found.some(isEnd)).toBe(true)
    }
  })

  it('a unit is never brought where it cannot be returned to service', () => {
    const good = new Set(reached.filter(isServing).map((place) => JSON.stringify(place)))
    for (let before = -1; before !== good.size; ) {
      before = good.size
      for (const { from, to } of moves) {
        if (good.has(JSON.stringify(to))) good.add(JSON.stringify(from))
      }
    }
    // A tap that is off while the record says neutral is found out by the signs, and run on.
    expect(reached.filter((place) => !good.has(JSON.stringify(place)))).toEqual([])
  })
})
