import type { EquipmentKind } from '#domain/feeder/equipment.ts'
import { phasesOfMask } from '#domain/units/phases.ts'
import type { FeederModel } from '../state/feeder-model.ts'

/** Something that a crew can see from the ground, and that the record has of a pole. */
export interface PoleSign {
  /** The same for every pole that shows it. */
  readonly key: string
  /** As a question ends: "a service transformer". */
  readonly words: string
  /** How much it tells one pole from another, 1 to 3. */
  readonly weight: number
}

/** What of the equipment is seen from below, in the words of a question. */
const EQUIPMENT_SIGNS: Readonly<Record<EquipmentKind, readonly [words: string, weight: number]>> = {
  regulator: ['a bank of voltage regulators', 3],
  transformer: ['a transformer', 3],
  capacitor: ['a capacitor bank', 3],
  switch: ['a line switch', 3],
  recloser: ['a recloser', 3],
  fuse: ['line fuses', 2],
  solar: ['a solar plant on a pole of its own', 2],
  generator: ['a generator connection', 2],
  cutout: ['cutouts', 1],
  arrester: ['arresters', 1],
  riser: ['a cable riser', 3],
  meter: ['a meter', 2],
  guy: ['a guy wire', 2],
}

const COUNTS = ['no', 'one', 'two', 'three']

/** What the record says can be seen at a pole; nothing for a pole that is not there. */
export function signsOfPole(model: FeederModel, poleId: string): PoleSign[] {
  const pole = model.poleById.get(poleId)
  if (!pole) return []
  const kinds = new Set((model.equipmentAt.get(poleId) ?? []).map(({ kind }) => kind))
  return [
    ...[...kinds].map((kind) => {
      const [words, weight] = EQUIPMENT_SIGNS[kind]
      return { key: `hangs ${kind}`, words, weight }
    }),
    ...lineSigns(model, poleId),
    ...(pole.material && pole.material !== 'unknown'
      ? [{ key: `material ${pole.material}`, words: `a ${pole.material} pole`, weight: 1 }]
      : []),
  ]
}

function lineSigns(model: FeederModel, poleId: string): PoleSign[] {
  const up = model.upstreamOf.get(poleId)
  const down = model.downstreamOf.get(poleId) ?? []
  const joined = (up === undefined ? 0 : 1) + down.length
  const phases = primaryCount(model, poleId)
  return [
    ...(phases > 0
      ? [
          {
            key: `primaries ${phases}`,
            words: `${COUNTS[phases]} primary ${phases === 1 ? 'conductor' : 'conductors'}`,
            weight: 2,
          },
        ]
      : []),
    ...(joined === 1 && up !== undefined
      ? [{ key: 'line ends', words: 'the line ending here', weight: 3 }]
      : []),
    ...(down.length > 1
      ? [{ key: 'line branches', words: 'a branch leaving the line here', weight: 3 }]
      : []),
    ...(up === undefined
      ? []
      : [
          { key: `up ${up}`, words: `the tag ${up} on the next pole toward the source`, weight: 3 },
        ]),
  ]
}

/** Phases that arrive in the present state of the switches; at the source, those that leave. */
function primaryCount({ feeder, trace }: FeederModel, poleId: string): number {
  const feeding = trace.spans[trace.feedingSpan.get(poleId) ?? -1]
  const isSource = feeder.header.source.pole === poleId
  const span = feeding ?? (isSource ? trace.spans[0] : undefined)
  return span ? phasesOfMask(span.mask).length : 0
}
