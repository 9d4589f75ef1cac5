import type { Equipment } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { LineType } from '#domain/feeder/line-type.ts'
import type { Load } from '#domain/feeder/load.ts'
import { PHASES, type Phase, type PhaseSet } from '#domain/units/phases.ts'

/** The next phase around: A is called B, B is called C, C is called A. */
export const NEXT: Readonly<Record<Phase, Phase>> = { A: 'B', B: 'C', C: 'A' }

function renamedSet(set: PhaseSet): PhaseSet {
  const renamed = [...set].map((phase) => NEXT[phase as Phase])
  return PHASES.filter((phase) => renamed.includes(phase)).join('') as PhaseSet
}

/** Entries named by one or two phases, as AB, in the new names and in the order of the alphabet. */
function renamedEntries<Value>(entries: Readonly<Record<string, Value>>): Record<string, Value> {
  return Object.fromEntries(
    Object.entries(entries).map(([name, value]) => {
      const pair = [...name].map((phase) => NEXT[phase as Phase])
      return [pair.sort().join(''), value]
    }),
  )
}

function renamedLineType(type: LineType): LineType {
  if (type.kind !== 'matrix') throw new Error('Only matrix line types are renamed here.')
  return {
    ...type,
    zOhmPerKm: renamedEntries(type.zOhmPerKm),
    bMicrosiemensPerKm: renamedEntries(type.bMicrosiemensPerKm ?? {}),
  }
}

function renamedLoad(load: Load): Load {
  return {
    ...load,
    ...{ kwB: load.kwA, kwC: load.kwB, kwA: load.kwC },
    ...{ kvarB: load.kvarA, kvarC: load.kvarB, kvarA: load.kvarC },
    ...{ kwBc: load.kwAb, kwCa: load.kwBc, kwAb: load.kwCa },
    ...{ kvarBc: load.kvarAb, kvarCa: load.kvarBc, kvarAb: load.kvarCa },
  }
}

function renamedEquipment(item: Equipment): Equipment {
  const phases = renamedSet(item.phases)
  if (item.kind === 'regulator') {
    return { ...item, phases, tapB: item.tapA, tapC: item.tapB, tapA: item.tapC }
  }
  if (item.kind === 'capacitor') {
    return { ...item, phases, kvarB: item.kvarA, kvarC: item.kvarB, kvarA: item.kvarC }
  }
  return { ...item, phases }
}

/** The same feeder with its phases renamed around; the source turns so that every conductor keeps its angle. */
export function withPhasesRenamed(feeder: Feeder): Feeder {
  const { source } = feeder.header
  const { voltagePu } = source
  const renamedPu =
    typeof voltagePu === 'number' ? voltagePu : { B: voltagePu.A, C: voltagePu.B, A: voltagePu.C }
  return {
    ...feeder,
    header: {
      ...feeder.header,
      source: { ...source, angleDeg: source.angleDeg + 120, voltagePu: renamedPu },
      lineTypes: feeder.header.lineTypes.map(renamedLineType),
    },
    spans: feeder.spans.map((span) => ({ ...span, phases: renamedSet(span.phases) })),
    equipment: feeder.equipment.map(renamedEquipment),
    loads: feeder.loads.map(renamedLoad),
  }
}

/** Voltages times `factor` and every power times its square: impedances keep their ohms. */
export function withVoltagesScaled(feeder: Feeder, factor: number): Feeder {
  const square = factor * factor
  return {
    ...feeder,
    header: { ...feeder.header, nominalKv: feeder.header.nominalKv * factor },
    equipment: feeder.equipment.map((item) => scaledEquipment(item, factor)),
    loads: feeder.loads.map((load) => {
      const powers = Object.entries(load).filter(([key]) => /^k(w|var)[A-C]/.test(key))
      return {
        ...load,
        ...Object.fromEntries(powers.map(([key, kw]) => [key, Number(kw) * square])),
      }
    }),
  }
}

function scaledEquipment(item: Equipment, factor: number): Equipment {
  const square = factor * factor
  if (item.kind === 'capacitor') {
    const { kvarA, kvarB, kvarC } = item
    return { ...item, kvarA: kvarA * square, kvarB: kvarB * square, kvarC: kvarC * square }
  }
  if (item.kind === 'solar' || item.kind === 'generator') {
    return { ...item, ratedKw: item.ratedKw * square }
  }
  if (item.kind !== 'transformer') return item
  return {
    ...item,
    ratingKva: item.ratingKva * square,
    highKv: (item.highKv ?? 0) * factor,
    lowKv: (item.lowKv ?? 0) * factor,
  }
}

/** The same feeder with the rows of every layer in reverse. */
export function withRowsReversed(feeder: Feeder): Feeder {
  return {
    ...feeder,
    poles: feeder.poles.toReversed(),
    spans: feeder.spans.toReversed(),
    loads: feeder.loads.toReversed(),
  }
}

/** Leaves out the bank in front of a series transformer, where a span has both. */
export function withOneDeviceInFront(feeder: Feeder): Feeder {
  const behindTransformer = new Set(
    feeder.equipment.flatMap((item) => (item.kind === 'transformer' ? [item.span] : [])),
  )
  return {
    ...feeder,
    equipment: feeder.equipment.filter(
      (item) => !(item.id.startsWith('r-') && 'span' in item && behindTransformer.has(item.span)),
    ),
  }
}

/** The same feeder without the banks that stand bypassed. */
export function withoutBypassedBanks(feeder: Feeder): Feeder {
  return {
    ...feeder,
    equipment: feeder.equipment.filter(
      (item) => !(item.kind === 'regulator' && item.state === 'bypassed'),
    ),
  }
}
