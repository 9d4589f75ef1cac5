import { useMemo } from 'react'
import type { Position } from '#domain/feeder/geometry.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { shareValue, useShared } from '../../device/shared-value.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { type OrderedStop, orderRound } from './round-order.ts'

/** Where each round was begun from, so that its order does not change under the crew's feet. */
const starts = shareValue<Readonly<Record<string, Position>>>({})

export function startRoundAt(jobId: string, at: Position): void {
  starts.set({ ...starts.get(), [jobId]: at })
}

export interface Round {
  readonly order: readonly OrderedStop[]
  /** Where it starts; null as long as nobody knows where the crew is. */
  readonly start: Position | null
  /** Poles of the job that the open feeder does not have. */
  readonly missing: readonly string[]
}

/** The poles of a job in the order in which to go round them. */
export function useRound(jobId: string, plan: JobPlan | undefined): Round {
  const { poleById } = useFeeder()
  const start = useShared(starts)[jobId] ?? null
  return useMemo(() => {
    const poles = plan?.poles.map(({ pole }) => pole) ?? []
    const stops = poles.flatMap((pole) => {
      const at = poleById.get(pole)?.at
      return at ? [{ pole, at }] : []
    })
    return {
      order: orderRound(stops, start),
      start,
      missing: poles.filter((pole) => !poleById.has(pole)),
    }
  }, [plan, poleById, start])
}
