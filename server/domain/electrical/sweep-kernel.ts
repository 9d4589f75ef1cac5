import type { Network } from './network.ts'

export interface SweepLimits {
  /** Largest change of any node's voltage in the last iteration, per unit of nominal. */
  readonly tolerancePu: number
  readonly maxIterations: number
}

export interface SweepOutcome {
  readonly isConverged: boolean
  readonly iterations: number
  /** Node whose voltage moved most in the last iteration. */
  readonly worstNode: number
  /** By how much, per unit of nominal. */
  readonly lastChangePu: number
}

/** Kinds of branch: a plain line, a gain per phase at the near end, a delta–grounded wye transformer. */
export const PLAIN = 0
export const GAIN = 1
export const DELTA = 2

/** Arrays of one sweep; strides as in `Network`. */
export interface SweepState {
  /** Volts to ground, stride 6. */
  readonly voltageV: Float64Array
  /** Series current of the branch into each node, amperes, stride 6. */
  readonly currentA: Float64Array
  /** Voltage gain at the near end of each branch, stride 3. */
  readonly gain: Float64Array
  readonly kind: Uint8Array
  readonly isBank: Uint8Array
  /** Shunt admittance at each node, 3 × 3 complex, stride 18, siemens. */
  readonly shunt: Float64Array
  readonly hasShunt: Uint8Array
  drawCount: number
  readonly drawNode: Int32Array
  readonly drawFrom: Uint8Array
  readonly drawTo: Int8Array
  readonly drawW: Float64Array
  readonly drawVar: Float64Array
  /** Share of constant power. */
  readonly drawPowerShare: Float64Array
  /** Share of constant current over rated volts. */
  readonly drawCurrentPerV: Float64Array
}

/**
 * Forward/backward sweep (Kersting, chapter 10: the ladder iterative technique) until no voltage
 * moves by more than the tolerance. Allocates nothing but its small answer.
 */
export function runSweep(network: Network, state: SweepState, limits: SweepLimits): SweepOutcome {
  const target = limits.tolerancePu * limits.tolerancePu
  const worst = { node: 0, change2: 0 }
  let iterations = 0
  let isConverged = false
  while (!isConverged && iterations < limits.maxIterations) {
    iterations++
    drawCurrents(network, state)
    collectCurrents(network, state)
    carryVoltages(network, state, worst)
    isConverged = worst.change2 <= target
    // A voltage that moves by ten times its nominal, or is no number, will not come back.
    if (!(worst.change2 < 100)) break
  }
  return { isConverged, iterations, worstNode: worst.node, lastChangePu: Math.sqrt(worst.change2) }
}

/** Current that each node's own shunts and loads take, into `currentA`. */
function drawCurrents(network: Network, state: SweepState): void {
  const { nodeCount } = network
  const { voltageV: v, currentA: c, shunt, hasShunt } = state
  for (let i = 0; i < nodeCount; i++) {
    const o = i * 6
    if (hasShunt[i] === 0) {
      c.fill(0, o, o + 6)
      continue
    }
    const ar = v[o]!
    const ai = v[o + 1]!
    const br = v[o + 2]!
    const bi = v[o + 3]!
    const cr = v[o + 4]!
    const ci = v[o + 5]!
    let y = i * 18
    for (let row = 0; row < 6; row += 2, y += 6) {
      const ga = shunt[y]!
      const ba = shunt[y + 1]!
      const gb = shunt[y + 2]!
      const bb = shunt[y + 3]!
      const gc = shunt[y + 4]!
      const bc = shunt[y + 5]!
      c[o + row] = ga * ar - ba * ai + gb * br - bb * bi + gc * cr - bc * ci
      c[o + row + 1] = ga * ai + ba * ar + gb * bi + bb * br + gc * ci + bc * cr
    }
  }
  const { drawCount, drawNode, drawFrom, drawTo, drawW, drawVar, drawPowerShare, drawCurrentPerV } =
    state
  for (let e = 0; e < drawCount; e++) {
    const o = drawNode[e]! * 6
    const from = o + drawFrom[e]! * 2
    const to = drawTo[e]! < 0 ? -1 : o + drawTo[e]! * 2
    const re = to < 0 ? v[from]! : v[from]! - v[to]!
    const im = to < 0 ? v[from + 1]! : v[from + 1]! - v[to + 1]!
    const square = re * re + im * im
    // Both kinds draw conj(S) V times a factor: 1/|V|² for power, 1/(|V| rated) for current.
    const currentShare = drawCurrentPerV[e]!
    const factor =
      drawPowerShare[e]! / square + (currentShare === 0 ? 0 : currentShare / Math.sqrt(square))
    const p = drawW[e]! * factor
    const q = drawVar[e]! * factor
    const ir = p * re + q * im
    const ii = p * im - q * re
    c[from] = c[from]! + ir
    c[from + 1] = c[from + 1]! + ii
    if (to < 0) continue
    c[to] = c[to]! - ir
    c[to + 1] = c[to + 1]! - ii
  }
}

/** Backward: adds every branch's current to its parent, through the gain at the near end. */
function collectCurrents(network: Network, state: SweepState): void {
  const { nodeCount, parent, ratio } = network
  const { currentA: c, gain, kind, isBank } = state
  for (let i = nodeCount - 1; i > 0; i--) {
    const o = i * 6
    const up = parent[i]! * 6
    const branchKind = kind[i]!
    if (branchKind === PLAIN) {
      c[up] = c[up]! + c[o]!
      c[up + 1] = c[up + 1]! + c[o + 1]!
      c[up + 2] = c[up + 2]! + c[o + 2]!
      c[up + 3] = c[up + 3]! + c[o + 3]!
      c[up + 4] = c[up + 4]! + c[o + 4]!
      c[up + 5] = c[up + 5]! + c[o + 5]!
    } else if (branchKind === GAIN) {
      for (let phase = 0; phase < 3; phase++) {
        const g = gain[i * 3 + phase]!
        const k = phase * 2
        c[up + k] = c[up + k]! + g * c[o + k]!
        c[up + k + 1] = c[up + k + 1]! + g * c[o + k + 1]!
      }
      if (isBank[i] === 1) moveNearCharging(network, state, i)
    } else {
      // Delta side: A carries a − b, B carries b − c, C carries c − a, over the ratio.
      const g = ratio[i]!
      for (let k = 0; k < 6; k++) c[up + k] = c[up + k]! + g * (c[o + k]! - c[o + ((k + 2) % 6)]!)
    }
  }
}

/** The near half of the charging hangs behind the bank, but was drawn at the parent: put that right. */
function moveNearCharging(network: Network, state: SweepState, branch: number): void {
  const { parent, halfB } = network
  const { voltageV: v, currentA: c, gain } = state
  const up = parent[branch]! * 6
  for (let row = 0; row < 3; row++) {
    const rowGain = gain[branch * 3 + row]!
    for (let column = 0; column < 3; column++) {
      const b = halfB[branch * 9 + row * 3 + column]! * (rowGain * gain[branch * 3 + column]! - 1)
      if (b === 0) continue
      c[up + row * 2] = c[up + row * 2]! - b * v[up + column * 2 + 1]!
      c[up + row * 2 + 1] = c[up + row * 2 + 1]! + b * v[up + column * 2]!
    }
  }
}

/** Forward: each node's voltage from its parent's, less the drop of the series impedance. */
function carryVoltages(
  network: Network,
  state: SweepState,
  worst: { node: number; change2: number },
): void {
  const { nodeCount, parent, mask, nominalV, zOhm: z, ratio } = network
  const { voltageV: v, currentA: c, gain, kind } = state
  let worstNode = 0
  let worstChange2 = 0
  for (let i = 1; i < nodeCount; i++) {
    const o = i * 6
    const up = parent[i]! * 6
    const phases = mask[i]!
    const branchKind = kind[i]!
    let change2 = 0
    if (phases === 7) {
      let ar = v[up]!
      let ai = v[up + 1]!
      let br = v[up + 2]!
      let bi = v[up + 3]!
      let cr = v[up + 4]!
      let ci = v[up + 5]!
      if (branchKind === GAIN) {
        const g = i * 3
        ar *= gain[g]!
        ai *= gain[g]!
        br *= gain[g + 1]!
        bi *= gain[g + 1]!
        cr *= gain[g + 2]!
        ci *= gain[g + 2]!
      } else if (branchKind === DELTA) {
        const g = ratio[i]!
        const firstRe = ar
        const firstIm = ai
        ar = g * (ar - cr)
        ai = g * (ai - ci)
        cr = g * (cr - br)
        ci = g * (ci - bi)
        br = g * (br - firstRe)
        bi = g * (bi - firstIm)
      }
      const iar = c[o]!
      const iai = c[o + 1]!
      const ibr = c[o + 2]!
      const ibi = c[o + 3]!
      const icr = c[o + 4]!
      const ici = c[o + 5]!
      let y = i * 18
      ar -=
        z[y]! * iar -
        z[y + 1]! * iai +
        z[y + 2]! * ibr -
        z[y + 3]! * ibi +
        z[y + 4]! * icr -
        z[y + 5]! * ici
      ai -=
        z[y]! * iai +
        z[y + 1]! * iar +
        z[y + 2]! * ibi +
        z[y + 3]! * ibr +
        z[y + 4]! * ici +
        z[y + 5]! * icr
      y += 6
      br -=
        z[y]! * iar -
        z[y + 1]! * iai +
        z[y + 2]! * ibr -
        z[y + 3]! * ibi +
        z[y + 4]! * icr -
        z[y + 5]! * ici
      bi -=
        z[y]! * iai +
        z[y + 1]! * iar +
        z[y + 2]! * ibi +
        z[y + 3]! * ibr +
        z[y + 4]! * ici +
        z[y + 5]! * icr
      y += 6
      cr -=
        z[y]! * iar -
        z[y + 1]! * iai +
        z[y + 2]! * ibr -
        z[y + 3]! * ibi +
        z[y + 4]! * icr -
        z[y + 5]! * ici
      ci -=
        z[y]! * iai +
        z[y + 1]! * iar +
        z[y + 2]! * ibi +
        z[y + 3]! * ibr +
        z[y + 4]! * ici +
        z[y + 5]! * icr
      const dar = ar - v[o]!
      const dai = ai - v[o + 1]!
      const dbr = br - v[o + 2]!
      const dbi = bi - v[o + 3]!
      const dcr = cr - v[o + 4]!
      const dci = ci - v[o + 5]!
      change2 = dar * dar + dai * dai + dbr * dbr + dbi * dbi + dcr * dcr + dci * dci
      v[o] = ar
      v[o + 1] = ai
      v[o + 2] = br
      v[o + 3] = bi
      v[o + 4] = cr
      v[o + 5] = ci
    } else {
      for (let phase = 0; phase < 3; phase++) {
        if (((phases >> phase) & 1) === 0) continue
        const k = phase * 2
        let re = v[up + k]!
        let im = v[up + k + 1]!
        if (branchKind === GAIN) {
          re *= gain[i * 3 + phase]!
          im *= gain[i * 3 + phase]!
        } else if (branchKind === DELTA) {
          const other = up + ((k + 4) % 6)
          re = ratio[i]! * (re - v[other]!)
          im = ratio[i]! * (im - v[other + 1]!)
        }
        const row = i * 18 + phase * 6
        for (let other = 0; other < 3; other++) {
          if (((phases >> other) & 1) === 0) continue
          const m = other * 2
          re -= z[row + m]! * c[o + m]! - z[row + m + 1]! * c[o + m + 1]!
          im -= z[row + m]! * c[o + m + 1]! + z[row + m + 1]! * c[o + m]!
        }
        const dr = re - v[o + k]!
        const di = im - v[o + k + 1]!
        change2 += dr * dr + di * di
        v[o + k] = re
        v[o + k + 1] = im
      }
    }
    change2 /= nominalV[i]! * nominalV[i]!
    if (!(change2 <= worstChange2)) {
      worstChange2 = change2
      worstNode = i
    }
  }
  worst.node = worstNode
  worst.change2 = worstChange2
}
