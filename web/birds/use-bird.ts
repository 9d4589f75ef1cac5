import { useMemo, useState } from 'react'
import { bridgedFrom } from '#domain/avian/pole-top/bridged-from.ts'
import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'
import type { Part, Point } from '#domain/avian/pole-top/part.ts'
import { perchPlaces } from '#domain/avian/pole-top/perch-places.ts'
import type { BirdSize } from '#domain/avian/species/bird-species.ts'
import type { BirdPlace } from './bird-place.ts'

export interface Bird {
  readonly place: BirdPlace
  /** What a bird of this size bridges from there, tightest first. */
  readonly bridged: readonly ContactPair[]
  readonly put: (place: BirdPlace) => void
  readonly putOn: (partId: string) => void
  readonly toNextPerch: () => void
  /** False where nothing on this pole can be stood on. */
  readonly hasPerches: boolean
}

const POLE_TOP: Point = [0, 0, 0]

/** A bird on the drawing; it starts where the tightest pair can be bridged from. */
export function useBird(
  parts: readonly Part[],
  size: BirdSize,
  startPartId: string | undefined,
): Bird {
  const perches = useMemo(() => perchPlaces(parts), [parts])
  const [chosen, setChosen] = useState<BirdPlace | null>(null)
  const start = perches.find(({ partId }) => partId === startPartId) ?? perches[0]
  const place = standing(chosen, parts) ?? {
    feetAt: start?.at ?? POLE_TOP,
    partId: start?.partId ?? null,
  }
  const at = perches.findIndex(
    (perch) =>
      perch.partId === place.partId && perch.at.every((m, axis) => m === place.feetAt[axis]),
  )
  const go = (perch: (typeof perches)[number] | undefined) =>
    perch && setChosen({ feetAt: perch.at, partId: perch.partId })
  const { feetAt } = place
  const { breadthM, heightM } = size
  const bridged = useMemo(
    () => bridgedFrom(parts, feetAt, { breadthM, heightM }),
    [parts, feetAt, breadthM, heightM],
  )
  return {
    place,
    bridged,
    put: setChosen,
    putOn: (partId) => go(perches.find((perch) => perch.partId === partId)),
    toNextPerch: () => go(perches[(at + 1) % Math.max(perches.length, 1)]),
    hasPerches: perches.length > 0,
  }
}

/** A trial may take away what the bird stood on. */
function standing(chosen: BirdPlace | null, parts: readonly Part[]): BirdPlace | null {
  if (!chosen || chosen.partId === null) return chosen
  return parts.some(({ id, canPerch }) => id === chosen.partId && canPerch) ? chosen : null
}
