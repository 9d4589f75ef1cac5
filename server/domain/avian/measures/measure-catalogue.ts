import { MEASURE_KINDS, type MeasureKind } from '../../feeder/measure-kinds.ts'
import type { BirdSettings } from '../bird-settings.ts'
import type { MeasureFacts } from './measure.ts'

/** Said wherever a cover is offered. */
export const COVERS_ARE_NO_INSULATION =
  'Covers guard birds against a brief touch. They are no insulation for people: treat what is under them as bare and energized, by the utility’s own safety rules.'

interface KindFacts {
  readonly removes: string
  readonly limits: string
  readonly lifeYears: readonly [least: number, most: number]
  readonly costUsd: readonly [least: number, most: number]
}

/** Ranges are planning assumptions; no published source was found for them. */
const FACTS: Readonly<Record<MeasureKind, KindFacts>> = {
  'bushing cover': {
    removes: 'Bushing to tank or lid, bushing to bushing.',
    limits:
      'Has to reach over the stud of the terminal and close around the jumper where it enters.',
    lifeYears: [10, 20],
    costUsd: [100, 600],
  },
  'cutout cover': {
    removes: 'Cutout contacts to bracket or arm, cutout to cutout.',
    limits: 'The fuse tube must still drop open and be reached with a stick.',
    lifeYears: [10, 20],
    costUsd: [100, 500],
  },
  'arrester cap': {
    removes: 'Line end of an arrester to tank or bracket.',
    limits: 'The ground lead stays bare; the disconnector must stay free.',
    lifeYears: [10, 20],
    costUsd: [50, 300],
  },
  'insulated jumper': {
    removes: 'Jumper to jumper, and jumper to tank, arm, brace or ground.',
    limits: 'No bare length may be left at either end.',
    lifeYears: [10, 20],
    costUsd: [100, 600],
  },
  'conductor cover': {
    removes: 'Phase to phase across the arm, phase to ground at the pole top.',
    limits:
      'Must run farther to either side than the bird reaches; hard to fit where the line turns; look for tracking and burning at inspections.',
    lifeYears: [10, 20],
    costUsd: [200, 900],
  },
  'dead-end cover': {
    removes: 'Dead-end clamp to arm, guy or the next phase.',
    limits: 'The jumper below the arm needs a cover of its own.',
    lifeYears: [10, 20],
    costUsd: [200, 900],
  },
  'ground-wire moulding': {
    removes: 'Phase to ground wire; with a non-conductive link or brace, phase to guy or brace.',
    limits: 'Grounding against lightning and for safety stays as the standard of the utility asks.',
    lifeYears: [20, 40],
    costUsd: [50, 400],
  },
  'raised perch': {
    removes: 'Nothing; gives the bird another place to stand.',
    limits: 'Closes no pair by itself: part of the birds stay on the arm below.',
    lifeYears: [10, 20],
    costUsd: [100, 500],
  },
  'perch deterrent': {
    removes: 'Nothing; makes one place uncomfortable.',
    limits:
      'Closes no pair by itself: birds get past it or move to a worse place, and it may hold nest material.',
    lifeYears: [5, 15],
    costUsd: [50, 400],
  },
  'longer arm': {
    removes: 'Phase to phase, by setting the outer phases farther out.',
    limits: 'Does nothing at equipment; check the class of the pole.',
    lifeYears: [30, 40],
    costUsd: [500, 2500],
  },
  'lowered arm': {
    removes: 'Centre phase to outer phases, by hanging the arm lower.',
    limits: 'Takes clearance from the ground and from what others have on the pole.',
    lifeYears: [30, 40],
    costUsd: [500, 2500],
  },
  'pole-top extension': {
    removes: 'Centre phase to outer phases and to grounded parts at the pole top.',
    limits: 'Adds load to the pole; check its strength.',
    lifeYears: [30, 40],
    costUsd: [400, 2000],
  },
  'suspended insulators': {
    removes: 'Phase to a steel arm, by hanging the phases below it.',
    limits:
      'Strings of usual length help hawks, hardly eagles (abstract of Guil and others 2011); takes clearance from the ground.',
    lifeYears: [30, 40],
    costUsd: [600, 3000],
  },
  'nest platform': {
    removes: 'Nest material on the phases, by a platform on a pole of its own.',
    limits:
      'Closes no pair on the old pole, which needs a deterrent as well. Only outside the nesting season, and with the permit that applies.',
    lifeYears: [15, 30],
    costUsd: [500, 5000],
  },
  'equipment moved to the ground': {
    removes: 'Every pair at the equipment.',
    limits:
      'A matter for engineering: the way down brings a riser with terminators, which need covers and are not drawn here.',
    lifeYears: [30, 40],
    costUsd: [5000, 30000],
  },
}

/** What is known of each kind, with what the utility set in place of it. */
export function measureCatalogue(settings?: BirdSettings): readonly MeasureFacts[] {
  return MEASURE_KINDS.map((kind) => {
    const shipped = shippedFacts(kind)
    const set = settings?.measures.find((entry) => entry.kind === kind)
    if (!set) return shipped
    return {
      ...shipped,
      costUsd: set.costUsd ?? shipped.costUsd,
      lifeYears: set.lifeYears ?? shipped.lifeYears,
      source: sourceOfSet(set, shipped),
    }
  })
}

function sourceOfSet(
  { costUsd, lifeYears, source }: BirdSettings['measures'][number],
  shipped: MeasureFacts,
): string {
  const of = [costUsd !== undefined && 'cost', lifeYears !== undefined && 'life'].filter(Boolean)
  if (of.length === 0) return shipped.source
  const rest = of.length === 1 ? ` ${shipped.source}` : ''
  return `Set by the utility (${of.join(' and ')}): ${source}.${rest}`
}

function shippedFacts(kind: MeasureKind): MeasureFacts {
  const { removes, limits, lifeYears, costUsd } = FACTS[kind]
  return {
    kind,
    removes,
    limits: isCover(kind) ? `${limits} ${COVERS_ARE_NO_INSULATION}` : limits,
    lifeYears: middle(lifeYears),
    costUsd: middle(costUsd),
    sureness: 'assumption',
    source: `Middle of a planning range without a published source: ${costUsd[0]} to ${costUsd[1]} US$ a pole, ${lifeYears[0]} to ${lifeYears[1]} years.`,
  }
}

function isCover(kind: MeasureKind): boolean {
  return MEASURE_KINDS.indexOf(kind) <= MEASURE_KINDS.indexOf('ground-wire moulding')
}

function middle([least, most]: readonly [number, number]): number {
  return (least + most) / 2
}
