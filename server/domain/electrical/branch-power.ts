import type { Sweep } from './sweep.ts'

/** Power into and out of one branch, watts and vars, all phases together. */
export interface BranchPower {
  readonly sendingW: number
  readonly sendingVar: number
  readonly lossW: number
  readonly lossVar: number
  /** Current into the line behind the gain, with the near half of its charging; stride 2 by phase. */
  readonly nearCurrentA: Float64Array
}

/** From the last solution. A gain loses nothing; a delta transformer's loss is that of its impedance. */
export function branchPower(sweep: Sweep, branch: number): BranchPower {
  const { network, state } = sweep
  const nearV = nearVoltage(sweep, branch)
  const farV = state.voltageV.subarray(branch * 6, branch * 6 + 6)
  const series = state.currentA.subarray(branch * 6, branch * 6 + 6)
  const halfB = network.halfB.subarray(branch * 9, branch * 9 + 9)
  const nearCurrentA = withCharging(series, halfB, nearV, 1)
  const farCurrentA = withCharging(series, halfB, farV, -1)
  const sending = power(nearV, nearCurrentA)
  const receiving = power(farV, farCurrentA)
  return {
    sendingW: sending.re,
    sendingVar: sending.im,
    lossW: sending.re - receiving.re,
    lossVar: sending.im - receiving.im,
    nearCurrentA,
  }
}

/** Voltage behind the gain or transformer ratio at the near end, stride 2 by phase. */
export function nearVoltage({ network, state }: Sweep, branch: number): Float64Array {
  const up = (network.parent[branch] as number) * 6
  const near = new Float64Array(6)
  const isDelta = network.isDelta[branch] === 1
  for (let k = 0; k < 6; k++) {
    const phase = k >> 1
    if (((network.mask[branch] as number) >> phase) % 2 === 0) continue
    const own = state.voltageV[up + k] as number
    near[k] = isDelta
      ? (network.ratio[branch] as number) * (own - (state.voltageV[up + ((k + 4) % 6)] as number))
      : (state.gain[branch * 3 + phase] as number) * own
  }
  return near
}

function withCharging(
  series: Float64Array,
  halfB: Float64Array,
  volts: Float64Array,
  sign: number,
): Float64Array {
  const current = Float64Array.from(series)
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < 3; column++) {
      const b = sign * (halfB[row * 3 + column] as number)
      current[row * 2] = (current[row * 2] as number) - b * (volts[column * 2 + 1] as number)
      current[row * 2 + 1] = (current[row * 2 + 1] as number) + b * (volts[column * 2] as number)
    }
  }
  return current
}

function power(volts: Float64Array, amps: Float64Array): { re: number; im: number } {
  let re = 0
  let im = 0
  for (let k = 0; k < 6; k += 2) {
    const vr = volts[k] as number
    const vi = volts[k + 1] as number
    const ir = amps[k] as number
    const ii = amps[k + 1] as number
    re += vr * ir + vi * ii
    im += vi * ir - vr * ii
  }
  return { re, im }
}
