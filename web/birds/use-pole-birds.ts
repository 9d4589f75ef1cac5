import { useMemo } from 'react'
import type { PoleTopRecord } from '#contract/pole-tops.ts'
import type { ProtectionRecord } from '#contract/protections.ts'
import { assessPole } from '#domain/avian/assessment/assess-pole.ts'
import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { poleSites } from '#domain/avian/pole-top/pole-sites.ts'
import type { PoleSite } from '#domain/avian/pole-top/pole-top.ts'
import type { Equipment } from '#domain/feeder/equipment.ts'
import { useBirdSettings } from '../api/bird-settings.ts'
import { usePoleTops } from '../api/pole-tops.ts'
import { useProtections } from '../api/protections.ts'
import { useFeeder } from '../state/feeder.tsx'

/** One pole with all that decides on what a bird can bridge there. */
export interface PoleBirds {
  readonly site: PoleSite
  readonly choice: PoleTopRecord | null
  readonly items: readonly ProtectionRecord[]
  readonly settings: BirdSettings | undefined
  readonly assessment: PoleAssessment
}

export interface PoleBirdsState {
  /** Null while it is fetched, and for a point that stands for no known pole. */
  readonly found: PoleBirds | null
  readonly isLoading: boolean
  readonly error: Error | null
  readonly retry: () => void
}

const NO_EQUIPMENT: readonly Equipment[] = []

/**
 * Reads choices, items and settings of the record and assesses one pole.
 *
 * @param proposed equipment that is not there yet, such as a bank that a planner places
 */
export function usePoleBirds(
  poleId: string | null,
  proposed: readonly Equipment[] = NO_EQUIPMENT,
): PoleBirdsState {
  const { feeder } = useFeeder()
  const choices = usePoleTops(feeder.header.id)
  const protections = useProtections(feeder.header.id)
  const settings = useBirdSettings()
  const sites = useMemo(
    () => choices.data && poleSites(feeder, choices.data),
    [feeder, choices.data],
  )
  const found = useMemo(() => {
    const site = sites?.find(({ pole }) => pole.id === poleId)
    if (!site || !protections.data || !settings.data) return null
    const items = protections.data.filter((item) => item.pole === poleId)
    const whole = { ...site, equipment: [...site.equipment, ...proposed] }
    return {
      site: whole,
      choice: choices.data?.find(({ pole }) => pole === poleId) ?? null,
      items,
      settings: settings.data.settings,
      assessment: assessPole(whole, items, settings.data.settings),
    }
  }, [sites, poleId, proposed, choices.data, protections.data, settings.data])
  const asked = [choices, protections, settings]
  return {
    found,
    isLoading: asked.some(({ isPending }) => isPending),
    error: asked.find(({ error }) => error)?.error ?? null,
    retry: () => {
      for (const query of asked) if (query.error) void query.refetch()
    },
  }
}
