import type { PhaseSet } from '#domain/units/phases.ts'
import type { EquipmentDraft, SwitchDraft } from './feeder-draft.ts'
import type { LaidFeeder } from './lay-feeder.ts'
import type { LaidBranch, LaidPole, LaidSpan } from './lay-line.ts'

/** Spans are named by where they lie, devices by the span or pole on which they sit. */
export function trunkOf(feeder: LaidFeeder): LaidBranch {
  const trunk = feeder.branches.find(({ plan }) => plan.series === '')
  if (!trunk) throw new Error(`Feeder "${feeder.id}" has no trunk.`)
  return trunk
}

/** Trunk span that begins nearest to a distance from the substation. */
export function trunkSpanAt(feeder: LaidFeeder, km: number): LaidSpan {
  const [nearest] = [...trunkOf(feeder).spans].sort(
    (a, b) => Math.abs(a.from.alongM - km * 1000) - Math.abs(b.from.alongM - km * 1000),
  )
  if (!nearest) throw new Error(`Feeder "${feeder.id}" has no trunk span at ${km} km.`)
  return nearest
}

/** The first trunk span from `km` on whose near pole carries nothing yet and taps no lateral. */
export function freeTrunkSpanAt(
  feeder: LaidFeeder,
  km: number,
  taken: ReadonlySet<string>,
): LaidSpan {
  const taps = new Set(feeder.branches.map(({ poles }) => poles[0]?.id))
  const free = trunkOf(feeder).spans.find(
    ({ from }) => from.alongM >= km * 1000 && !taken.has(from.id) && !taps.has(from.id),
  )
  if (!free) throw new Error(`Feeder "${feeder.id}" has no free trunk pole beyond ${km} km.`)
  return free
}

/** Reclosers on large laterals, fuses on the others, each at the tap pole. */
export function lateralProtection(
  feeder: LaidFeeder,
  reclosed: ReadonlySet<string>,
): EquipmentDraft[] {
  return feeder.branches.flatMap(({ plan, spans }): EquipmentDraft[] => {
    const [first] = spans
    if (plan.series === '' || !first) return []
    return reclosed.has(plan.series)
      ? [recloser(first, 100, 2014), arresters(first.from, first.phases, first.id)]
      : [fuse(first, plan.phases === 'ABC' ? 65 : 40), cutouts(first.from, first.phases, first.id)]
  })
}

export function recloser(span: LaidSpan, ratingA: number, installedYear: number): SwitchDraft {
  return { ...series(span), id: `recloser-${span.id}`, kind: 'recloser', ratingA, installedYear }
}

export function lineSwitch(span: LaidSpan, state: 'open' | 'closed', name: string): SwitchDraft {
  return {
    ...series(span),
    id: `switch-${span.from.id}`,
    kind: 'switch',
    name,
    state,
    ratingA: 600,
    installedYear: 1998,
  }
}

function fuse(span: LaidSpan, ratingA: number): SwitchDraft {
  return { ...series(span), id: `fuse-${span.id}`, kind: 'fuse', ratingA }
}

function series(span: LaidSpan): Pick<SwitchDraft, 'pole' | 'span' | 'phases'> {
  return { pole: span.from.id, span: span.id, phases: span.phases }
}

export function cutouts(pole: LaidPole, phases: PhaseSet, place: string): EquipmentDraft {
  return { id: `cutout-${place}`, pole: pole.id, kind: 'cutout', phases, count: phases.length }
}

export function arresters(pole: LaidPole, phases: PhaseSet, place: string): EquipmentDraft {
  return { id: `arrester-${place}`, pole: pole.id, kind: 'arrester', phases, count: phases.length }
}

export function riser(pole: LaidPole, phases: PhaseSet): EquipmentDraft {
  return { id: `riser-${pole.id}`, pole: pole.id, kind: 'riser', phases, count: phases.length }
}

export function guys(pole: LaidPole, phases: PhaseSet, count: number): EquipmentDraft {
  return { id: `guy-${pole.id}`, pole: pole.id, kind: 'guy', phases, count }
}
