import type { Phase } from '#domain/units/phases.ts'
import type { Equipment } from '../../feeder/equipment.ts'

/** A cutout or arrester of one phase, by the record's id of what it belongs to. */
export interface Fitting {
  readonly id: string
  readonly phase: Phase
}

/** What is fed on one phase, and through what. */
export interface Feed {
  readonly phase: Phase
  /** Null for a cutout or arrester that nothing on this pole is fed through. */
  readonly fed: Equipment | null
  readonly cutout: Fitting | null
  readonly arrester: Fitting | null
}

/** A fuse, or a cutout or arrester by itself: it belongs to the line, not to what hangs on the pole. */
export function isOfLine({ fed }: Feed): boolean {
  return fed === null || fed.kind === 'fuse'
}

/**
 * A tap begins behind a cutout of the line, or behind a fuse or recloser whose phases all leave with
 * it; one with more phases stands in the main line.
 */
export function feedsTap({ phase, fed, cutout }: Feed, tapPhases: readonly Phase[]): boolean {
  if (fed === null) return cutout !== null && tapPhases.includes(phase)
  const isOfTap = ([...fed.phases] as Phase[]).every((each) => tapPhases.includes(each))
  return (fed.kind === 'recloser' || fed.kind === 'fuse') && isOfTap
}

/** Each takes its cutout and arrester in this order, as far as the record has them. */
const FED_IN_ORDER: readonly Equipment['kind'][] = [
  'transformer',
  'capacitor',
  'riser',
  'regulator',
  'recloser',
  'fuse',
]
const WITHOUT_CUTOUT: readonly Equipment['kind'][] = ['regulator', 'recloser']
const WITHOUT_ARRESTER: readonly Equipment['kind'][] = ['fuse']

/**
 * Joins what belongs together: a transformer with the cutout and the arrester of its phase, a fuse
 * with the cutout that it is. What is left over stands by itself.
 */
export function feedsOf(equipment: readonly Equipment[]): Feed[] {
  const cutouts = fittingsOf(equipment, 'cutout')
  const arresters = fittingsOf(equipment, 'arrester')
  const feeds = FED_IN_ORDER.flatMap((kind) => equipment.filter((item) => item.kind === kind))
    .filter((item) => !isServiceRiser(item, equipment))
    .flatMap((fed) =>
      ([...fed.phases] as Phase[]).map((phase): Feed => {
        const cutout = WITHOUT_CUTOUT.includes(fed.kind) ? null : take(cutouts, phase)
        return {
          phase,
          fed,
          cutout: cutout ?? (fed.kind === 'fuse' ? { id: fed.id, phase } : null),
          arrester: WITHOUT_ARRESTER.includes(fed.kind) ? null : take(arresters, phase),
        }
      }),
    )
  return [
    ...feeds,
    ...cutouts.map((cutout): Feed => ({ phase: cutout.phase, fed: null, cutout, arrester: null })),
    ...arresters.map(
      (arrester): Feed => ({ phase: arrester.phase, fed: null, cutout: null, arrester }),
    ),
  ]
}

/** The cable of a transformer's service goes down the pole with nothing live at the line's voltage. */
export function isServiceRiser(item: Equipment, equipment: readonly Equipment[]): boolean {
  return (
    item.kind === 'riser' &&
    equipment.some(({ kind, phases }) => kind === 'transformer' && phases === item.phases)
  )
}

function fittingsOf(equipment: readonly Equipment[], kind: 'cutout' | 'arrester'): Fitting[] {
  return equipment
    .filter((item) => item.kind === kind)
    .flatMap(({ id, phases }) => ([...phases] as Phase[]).map((phase) => ({ id, phase })))
}

/** The first of the phase, which is then no longer among those left. */
function take(fittings: Fitting[], phase: Phase): Fitting | null {
  const index = fittings.findIndex((fitting) => fitting.phase === phase)
  return index < 0 ? null : (fittings.splice(index, 1)[0] ?? null)
}
