import { PHASES, phaseMask, phasesOfMask } from '#domain/units/phases.ts'
import type { Feeder } from '../feeder/feeder.ts'
import type { Load } from '../feeder/load.ts'
import { loadParts } from '../network/load-phases.ts'
import type { ElementGroup, LoadElements } from './network.ts'
import type { NetworkBuilder } from './network-builder.ts'

interface Element {
  readonly node: number
  readonly fromPhase: number
  readonly toPhase: number
  readonly kw: number
  readonly kvar: number
  readonly shares: readonly [
    constantPower: number,
    constantCurrent: number,
    constantImpedance: number,
  ]
  readonly group: ElementGroup
  readonly loadIndex: number
}

const CONSTANT_POWER = [1, 0, 0] as const
const CONSTANT_IMPEDANCE = [0, 0, 1] as const
/** Two thirds of a spread load stand at a quarter of the span, one third at its end. */
const QUARTER_SHARE = 2 / 3

/** Loads, generators and capacitors on nodes that have power, sorted by node. */
export function compileElements(feeder: Feeder, builder: NetworkBuilder): LoadElements {
  const elements = [
    ...feeder.loads.flatMap((load, index) => loadElements(load, index, builder)),
    ...feeder.equipment.flatMap((item) => {
      const node = builder.findPole(item.pole)
      if (node < 0) return []
      if (item.kind === 'capacitor') return item.state === 'on' ? capacitorElements(item, node) : []
      if (item.kind === 'solar' || item.kind === 'generator') return generatorElements(item, node)
      return []
    }),
  ].filter((element) => isFed(element, builder))
  elements.sort((a, b) => a.node - b.node)
  return packed(elements)
}

function loadElements(load: Load, loadIndex: number, builder: NetworkBuilder): Element[] {
  const spread = load.span === undefined ? null : builder.spreadNodes(load.span)
  const places =
    load.pole !== undefined
      ? [{ node: builder.findPole(load.pole), share: 1 }]
      : spread
        ? [
            { node: spread.quarter, share: QUARTER_SHARE },
            { node: spread.end, share: 1 - QUARTER_SHARE },
          ]
        : []
  const shares = [load.constantPower, load.constantCurrent, load.constantImpedance] as const
  const group = { kind: 'load', customerClass: load.customerClass } as const
  return places
    .filter(({ node }) => node >= 0)
    .flatMap(({ node, share }) =>
      loadParts(load).map(({ fromPhase, toPhase, kw, kvar }) => ({
        node,
        fromPhase,
        toPhase,
        kw: kw * share,
        kvar: kvar * share,
        shares,
        group,
        loadIndex,
      })),
    )
}

type Capacitor = Extract<Feeder['equipment'][number], { kind: 'capacitor' }>
type Generator = Extract<Feeder['equipment'][number], { kind: 'solar' | 'generator' }>

function capacitorElements(item: Capacitor, node: number): Element[] {
  return PHASES.map((phase, fromPhase) => ({
    node,
    fromPhase,
    toPhase: -1,
    kw: 0,
    kvar: -item[`kvar${phase}`],
    shares: CONSTANT_IMPEDANCE,
    group: { kind: 'capacitor' } as const,
    loadIndex: -1,
  })).filter(({ kvar }) => kvar !== 0)
}

function generatorElements(item: Generator, node: number): Element[] {
  const phases = phasesOfMask(phaseMask(item.phases))
  const kw = item.ratedKw / phases.length
  const pf = item.powerFactor
  const kvar = pf === 0 ? 0 : Math.sign(pf) * kw * Math.tan(Math.acos(Math.min(1, Math.abs(pf))))
  return phases.map((phase) => ({
    node,
    fromPhase: PHASES.indexOf(phase),
    toPhase: -1,
    kw: -kw,
    kvar: -kvar,
    shares: CONSTANT_POWER,
    group: { kind: 'generation' } as const,
    loadIndex: -1,
  }))
}

/** Parts on phases that do not arrive are left out; `checkFeeder` reports them. */
function isFed({ node, fromPhase, toPhase }: Element, builder: NetworkBuilder): boolean {
  const needed = (1 << fromPhase) | (toPhase < 0 ? 0 : 1 << toPhase)
  return (needed & ~builder.maskOf(node)) === 0
}

function packed(elements: readonly Element[]): LoadElements {
  const groups: ElementGroup[] = []
  const groupIndex = new Map<string, number>()
  const indexOf = (group: ElementGroup): number => {
    const key = group.kind === 'load' ? `load ${group.customerClass}` : group.kind
    const known = groupIndex.get(key)
    if (known !== undefined) return known
    groupIndex.set(key, groups.length)
    return groups.push(group) - 1
  }
  return {
    count: elements.length,
    node: Int32Array.from(elements, ({ node }) => node),
    fromPhase: Uint8Array.from(elements, ({ fromPhase }) => fromPhase),
    toPhase: Int8Array.from(elements, ({ toPhase }) => toPhase),
    kw: Float64Array.from(elements, ({ kw }) => kw),
    kvar: Float64Array.from(elements, ({ kvar }) => kvar),
    constantPower: Float64Array.from(elements, ({ shares }) => shares[0]),
    constantCurrent: Float64Array.from(elements, ({ shares }) => shares[1]),
    constantImpedance: Float64Array.from(elements, ({ shares }) => shares[2]),
    group: Int32Array.from(elements, ({ group }) => indexOf(group)),
    groups,
    loadIndex: Int32Array.from(elements, ({ loadIndex }) => loadIndex),
  }
}
