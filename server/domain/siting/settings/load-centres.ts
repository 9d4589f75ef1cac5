import type { Sweep } from '#domain/electrical/sweep.ts'
import type { LimitJudge } from '../limit-judge.ts'
import type { BankZone } from './bank-zone.ts'

/** Where a compensator may be told to hold the volts. */
export type LoadCentreKind = 'lowest customer' | 'middle of the load' | 'end of the zone'

export interface LoadCentre {
  readonly node: number
  readonly kind: LoadCentreKind
}

/**
 * Load centres worth trying, in a solved case: the customer with the lowest volts, the place beyond
 * which less than half of the bank's current still flows, and the end of the zone. One place is
 * named once. None where the bank feeds nothing but its own pole.
 */
export function loadCentres(
  sweep: Sweep,
  judge: LimitJudge,
  pu: Float64Array,
  zone: BankZone,
): LoadCentre[] {
  const found: LoadCentre[] = []
  const offer = (node: number, kind: LoadCentreKind) => {
    if (node >= 0 && !found.some((other) => other.node === node)) found.push({ node, kind })
  }
  offer(lowestCustomer(judge, pu, zone), 'lowest customer')
  offer(middleOfLoad(sweep, zone), 'middle of the load')
  offer(endOfZone(sweep, zone), 'end of the zone')
  return found
}

function lowestCustomer({ watched }: LimitJudge, pu: Float64Array, { isIn }: BankZone): number {
  let lowest = -1
  for (const slot of watched) {
    if (isIn[Math.floor(slot / 3)] === 0) continue
    if (lowest < 0 || (pu[slot] ?? 0) < (pu[lowest] ?? 0)) lowest = slot
  }
  return lowest < 0 ? -1 : Math.floor(lowest / 3)
}

/** Follows the heaviest branch until half of the bank's current has left the line. */
function middleOfLoad(sweep: Sweep, { branch, isIn }: BankZone): number {
  const half = ampsInto(sweep, branch) / 2
  let node = branch
  for (;;) {
    const next = heaviestChild(sweep, node, isIn)
    if (next < 0 || ampsInto(sweep, next) < half) return node
    node = next
  }
}

/** The next bank where there is one, else the farthest place on all of the bank's phases. */
function endOfZone({ network }: Sweep, { branch, endNodes, isIn }: BankZone): number {
  const { distanceM, mask, subtreeEnd } = network
  const [first] = endNodes.toSorted((a, b) => (distanceM[a] ?? 0) - (distanceM[b] ?? 0))
  if (first !== undefined) return first
  let farthest = branch
  for (let node = branch; node < (subtreeEnd[branch] ?? 0); node += 1) {
    if (isIn[node] === 0 || mask[node] !== mask[branch]) continue
    if ((distanceM[node] ?? 0) > (distanceM[farthest] ?? 0)) farthest = node
  }
  return farthest
}

function heaviestChild(sweep: Sweep, node: number, isIn: Uint8Array): number {
  const { parent, subtreeEnd } = sweep.network
  let heaviest = -1
  let child = node + 1
  while (child < (subtreeEnd[node] ?? 0)) {
    if (parent[child] === node && isIn[child] === 1) {
      if (heaviest < 0 || ampsInto(sweep, child) > ampsInto(sweep, heaviest)) heaviest = child
    }
    child = subtreeEnd[child] ?? child + 1
  }
  return heaviest
}

/** Currents of all phases, added. */
function ampsInto({ currentA }: Sweep, branch: number): number {
  let sum = 0
  for (let at = branch * 6; at < branch * 6 + 6; at += 2) {
    sum += Math.hypot(currentA[at] ?? 0, currentA[at + 1] ?? 0)
  }
  return sum
}
