import type { UnitState } from '#domain/jobs/unit-state.ts'

/**
 * What would really happen at a pole, told from its wires and not from the rules: a small circuit of
 * the conductors, the bushings of one unit and the neutral. `isOffNeutral` is the true tap, which
 * the record does not know.
 */
export function faultsAt(state: UnitState, isOffNeutral: boolean): string[] {
  const wires = new Wires()
  if (state.isBypassClosed) wires.join('source', 'load')
  if (state.isJumperOn) wires.join('source', 'load')
  if (state.isSourceClosed) wires.join('source', 'S')
  if (state.isLoadClosed) wires.join('load', 'L')
  if (state.neutralSide !== 'open') wires.join('SL', 'neutral')
  if (state.isGrounded) {
    wires.join('S', 'neutral')
    wires.join('L', 'neutral')
  }
  const alive = (['S', 'L'] as const).filter(
    (bushing) => wires.areJoined(bushing, 'source') || wires.areJoined(bushing, 'load'),
  )
  const faults: string[] = []
  const tell = (isSo: boolean, fault: string) => isSo && faults.push(fault)
  tell(
    wires.areJoined('source', 'neutral') || wires.areJoined('load', 'neutral'),
    'the line is grounded',
  )
  tell(
    state.isUp && isOffNeutral && alive.length > 0 && wires.areJoined('S', 'L'),
    'the series winding is shorted',
  )
  tell(!state.isUp && alive.length > 0, 'loose leads are alive')
  tell(
    state.isUp && alive.length > 0 && !wires.areJoined('SL', 'neutral'),
    'the neutral bushing is at line volts',
  )
  if (state.isUp) wires.join('S', 'L')
  tell(!wires.areJoined('source', 'load'), 'customers beyond are out')
  return faults
}

/** Whether hands may go to the leads of the unit: grounded, and nothing alive joined to them. */
export function isSafeToTouch(state: UnitState): boolean {
  return state.isGrounded && faultsAt({ ...state, isUp: false }, false).length === 0
}

/** Points that are joined by metal. */
class Wires {
  readonly #joined = new Map<string, Set<string>>()

  #of(point: string): Set<string> {
    return this.#joined.get(point) ?? new Set([point])
  }

  join(a: string, b: string): void {
    const both = new Set([...this.#of(a), ...this.#of(b)])
    for (const point of both) this.#joined.set(point, both)
  }

  areJoined(a: string, b: string): boolean {
    return this.#of(a).has(b)
  }
}
