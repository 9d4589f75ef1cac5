import { useMemo } from 'react'
import { poleSites } from '#domain/avian/pole-top/pole-sites.ts'
import type { PoleTop } from '#domain/avian/pole-top/pole-top.ts'
import { poleTopOf } from '#domain/avian/pole-top/pole-top-of.ts'
import { usePoleTops } from '../../api/pole-tops.ts'
import { useFeeder } from '../../state/feeder.tsx'

/** Parts on top of a pole as the record has it; null where the pole is none, or cannot be drawn. */
export function usePoleTop(pole: string): PoleTop | null {
  const { feeder } = useFeeder()
  const { data: choices } = usePoleTops(feeder.header.id)
  return useMemo(() => {
    if (pole === '') return null
    const site = poleSites(feeder, choices ?? []).find((one) => one.pole.id === pole)
    return site ? poleTopOf(site) : null
  }, [feeder, choices, pole])
}
