import { useMemo } from 'react'
import type { ProtectionRecord } from '#contract/protections.ts'
import {
  type BirdFigures,
  type BirdPole,
  birdFigures,
  birdPoles,
} from '#domain/avian/pole-urgency.ts'
import { useProtections } from '../api/protections.ts'
import { useFeeder } from '../state/feeder.tsx'
import { useSeasonMonth } from './season-month.ts'

export interface BirdRecord {
  /** Most urgent first. */
  readonly poles: readonly BirdPole[]
  readonly figures: BirdFigures
  readonly items: readonly ProtectionRecord[]
  /** Items are still on their way, or did not arrive: the rest is shown without them. */
  readonly isLoading: boolean
  readonly error: Error | null
  readonly retry: () => void
}

const NO_ITEMS: readonly ProtectionRecord[] = []

/** The open feeder as the coordinator sees it, for the chosen month. */
export function useBirdRecord(): BirdRecord {
  const { feeder } = useFeeder()
  const month = useSeasonMonth()
  const { data, isPending, error, refetch } = useProtections(feeder.header.id)
  const items = data ?? NO_ITEMS
  const poles = useMemo(() => birdPoles(feeder, items, month), [feeder, items, month])
  const figures = useMemo(() => birdFigures(poles), [poles])
  return { poles, figures, items, isLoading: isPending, error, retry: () => void refetch() }
}
