import { type PhaseMask, phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import { lineToNeutralV } from '#domain/units/voltage-base.ts'
import type { Regulator, Transformer } from '../feeder/equipment.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { Finding } from '../feeder/finding.ts'
import { checkFeeder } from '../network/check-feeder.ts'
import { changesVoltage } from '../network/series-equipment.ts'
import { spanLengthM } from '../network/span-length.ts'
import { type TracedSpan, traceFeeder } from '../network/trace-feeder.ts'
import { compileElements } from './compile-elements.ts'
import { lineAmpacityA } from './line-ampacity.ts'
import { type LineMatrices, lineMatrices } from './line-matrices.ts'
import type { BankSettings, CompiledRegulator, CompiledSource, Network } from './network.ts'
import { NetworkBuilder } from './network-builder.ts'

export type CompileResult =
  | {
      readonly status: 'compiled'
      readonly network: Network
      readonly findings: readonly Finding[]
    }
  | { readonly status: 'rejected'; readonly findings: readonly Finding[] }

/**
 * Orders the feeder from its source outward and lays it into arrays for the sweep.
 * A feeder with errors is rejected with its findings; warnings and notices come along.
 * References between layers are the reader's to check: a dangling one throws.
 */
export function compileNetwork(feeder: Feeder): CompileResult {
  const findings = checkFeeder(feeder)
  if (findings.some(({ severity }) => severity === 'error')) return { status: 'rejected', findings }
  return { status: 'compiled', network: buildNetwork(feeder), findings }
}

function buildNetwork(feeder: Feeder): Network {
  const builder = new NetworkBuilder(feeder.spans.map(({ id }) => id))
  const matrices = new Map(feeder.header.lineTypes.map((type) => [type.id, lineMatrices(type)]))
  const ampacity = new Map(feeder.header.lineTypes.map((type) => [type.id, lineAmpacityA(type)]))
  const spreadLoads = new Set(
    feeder.loads.flatMap(({ span }) => (span === undefined ? [] : [span])),
  )
  addSource(builder, feeder)
  const regulators: CompiledRegulator[] = []
  for (const traced of traceFeeder(feeder).spans) {
    const { lineType } = traced.span
    builder.beginSpan(traced.span.id, ampacity.get(lineType ?? '') ?? Number.NaN)
    regulators.push(
      ...addSpan(builder, traced, matrixOf(traced, matrices), spreadLoads.has(traced.span.id)),
    )
  }
  return builder.finish(compileElements(feeder, builder), regulators, sourceOf(feeder))
}

function matrixOf(
  traced: TracedSpan,
  matrices: ReadonlyMap<string, LineMatrices>,
): LineMatrices | null {
  const { lineType, id } = traced.span
  if (lineType === undefined) return null
  const found = matrices.get(lineType)
  if (!found)
    throw new Error(`Span "${id}" names line type "${lineType}", which the feeder does not have.`)
  return found
}

function sourceOf({ header }: Feeder): CompiledSource {
  const { voltagePu, angleDeg } = header.source
  const perPhase =
    typeof voltagePu === 'number' ? { A: voltagePu, B: voltagePu, C: voltagePu } : voltagePu
  return { voltagePu: [perPhase.A, perPhase.B, perPhase.C], angleDeg }
}

/** Impedance behind the source from its sequence values: self (z0 + 2 z1)/3, mutual (z0 − z1)/3. */
function addSource(builder: NetworkBuilder, { header }: Feeder): void {
  const { pole, impedance } = header.source
  const nominalV = lineToNeutralV(header.nominalKv)
  if (!impedance) {
    builder.addRoot(pole, pole, nominalV)
    return
  }
  const { r1Ohm, x1Ohm, r0Ohm, x0Ohm } = impedance
  const z = new Float64Array(18)
  for (let row = 0; row < 3; row++) {
    for (let column = 0; column < 3; column++) {
      const isSelf = row === column
      z[row * 6 + column * 2] = isSelf ? (r0Ohm + 2 * r1Ohm) / 3 : (r0Ohm - r1Ohm) / 3
      z[row * 6 + column * 2 + 1] = isSelf ? (x0Ohm + 2 * x1Ohm) / 3 : (x0Ohm - x1Ohm) / 3
    }
  }
  const root = builder.addRoot(`${pole}:behind`, pole, nominalV)
  builder.addBranch({ parent: root, id: pole, poleId: pole, mask: 7, nominalV, z })
}

/**
 * Lays one span: its series devices in order, then the line. A regulator is the gain of the branch
 * behind it, and nothing at all where it stands bypassed, as a closed switch is; a transformer
 * brings its own impedance. A span with a spread load is cut at a quarter of its length, where two
 * thirds of the load stand and one third at the far end: the exact equivalent of a uniform load for
 * voltage drop and loss (Kersting, chapter 3).
 */
function addSpan(
  builder: NetworkBuilder,
  traced: TracedSpan,
  matrices: LineMatrices | null,
  hasSpreadLoad: boolean,
): CompiledRegulator[] {
  const { span, nearPole, farPole, mask, devices } = traced
  const regulators: CompiledRegulator[] = []
  let parent = builder.nodeOfPole(nearPole)
  let isPlain = true
  let isSlotTaken = false
  const lengthM = spanLengthM(span)
  const startM = builder.distanceM(parent)
  const isJumper = lengthM === 0 || matrices === null
  const series = devices.filter(changesVoltage)
  series.forEach((device, i) => {
    if (device.kind === 'regulator') {
      if (isSlotTaken) parent = builder.addBranch(inner(`${device.id}:in`, parent))
      isSlotTaken = true
      regulators.push(compileRegulator(device, builder.nextBranch()))
      return
    }
    // A bank before a transformer needs a branch of its own: its control reads volts of the high side.
    if (isSlotTaken) parent = builder.addBranch(inner(`${device.id}:in`, parent))
    const isLast = isJumper && i === series.length - 1
    const id = isLast ? farPole : `${device.id}:out`
    parent = builder.addBranch({
      ...inner(id, parent),
      poleId: isLast ? farPole : nearPole,
      ...transformerBranch(device, mask, builder.nominalV(parent)),
    })
    if (isLast) builder.placePole(farPole, parent)
    isPlain = isPlain && !isLast
    isSlotTaken = false
  })
  if (isPlain) addLine()
  return regulators

  function inner(id: string, from: number) {
    return {
      parent: from,
      id,
      poleId: nearPole,
      mask,
      nominalV: builder.nominalV(from),
      distanceM: startM,
    }
  }

  function addLine(): void {
    const cuts = hasSpreadLoad && !isJumper ? [0.25, 0.75] : [1]
    cuts.forEach((share, i) => {
      const isEnd = i === cuts.length - 1
      const length = isJumper ? 0 : (lengthM / 1000) * share
      parent = builder.addBranch({
        parent,
        id: isEnd ? farPole : `${span.id}:quarter`,
        poleId: isEnd ? farPole : nearPole,
        mask,
        nominalV: builder.nominalV(parent),
        distanceM: startM + (isEnd ? lengthM : lengthM * share),
        z: matrices ? maskedZ(matrices, mask, length) : undefined,
        halfB: matrices ? maskedHalfB(matrices, mask, length) : undefined,
      })
      if (!isEnd) builder.placeQuarter(span.id, parent)
    })
    builder.placePole(farPole, parent)
  }
}

function maskedZ({ zOhmPerKm }: LineMatrices, mask: PhaseMask, lengthKm: number): Float64Array {
  return zOhmPerKm.map((value, i) =>
    bothIn(mask, Math.floor(i / 6), (i >> 1) % 3) ? value * lengthKm : 0,
  )
}

function maskedHalfB(
  { bSiemensPerKm }: LineMatrices,
  mask: PhaseMask,
  lengthKm: number,
): Float64Array {
  return bSiemensPerKm.map((value, i) =>
    bothIn(mask, Math.floor(i / 3), i % 3) ? (value * lengthKm) / 2 : 0,
  )
}

function bothIn(mask: PhaseMask, row: number, column: number): boolean {
  return ((mask >> row) & (mask >> column) & 1) === 1
}

/**
 * Impedance on the low side: percent of (line-to-neutral volts)² over the volt-amperes of one unit.
 * The rating is that of all units, also where not every phase arrives.
 */
function transformerBranch(device: Transformer, mask: PhaseMask, nearNominalV: number) {
  const { highKv, lowKv, rPct = 0, xPct = 0, ratingKva, connection } = device
  if (highKv === undefined || lowKv === undefined) {
    throw new Error(`Series transformer "${device.id}" has no high_kv or low_kv.`)
  }
  const lowV = lineToNeutralV(lowKv)
  const unitVa = (ratingKva * 1000) / phasesOfMask(phaseMask(device.phases)).length
  const baseOhm = (lowV * lowV) / unitVa
  const z = new Float64Array(18)
  for (let phase = 0; phase < 3; phase++) {
    if (!bothIn(mask, phase, phase)) continue
    z[phase * 8] = (rPct / 100) * baseOhm
    z[phase * 8 + 1] = (xPct / 100) * baseOhm
  }
  const isDelta = connection === 'delta-grounded-wye'
  const highV = isDelta ? highKv * 1000 : lineToNeutralV(highKv)
  const nominalV = (lowV * nearNominalV) / lineToNeutralV(highKv)
  return { z, ratio: lowV / highV, isDelta, nominalV: closeTo(nominalV, lowV) }
}

/** A nominal voltage within a percent of the nameplate is the nameplate's. */
function closeTo(value: number, nameplate: number): number {
  return Math.abs(value / nameplate - 1) < 0.01 ? nameplate : value
}

function compileRegulator(device: Regulator, branch: number): CompiledRegulator {
  return {
    id: device.id,
    poleId: device.pole,
    spanId: device.span,
    branch,
    settings: bankSettings(device),
    recordedTaps: [device.tapA, device.tapB, device.tapC],
  }
}

function bankSettings(device: Regulator): BankSettings {
  return {
    windingType: device.windingType,
    phases: phasesOfMask(phaseMask(device.phases)),
    ptRatio: device.ptRatio,
    ctPrimaryA: device.ctPrimaryA,
    bandCentreV: device.bandCentreV,
    bandwidthV: device.bandwidthV,
    rV: device.rV,
    xV: device.xV,
    delayS: device.delayS,
    maxRaise: device.maxRaise,
    maxLower: device.maxLower,
  }
}
