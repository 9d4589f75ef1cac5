import type { Protection } from '../../feeder/birds.ts'
import type { Feeder } from '../../feeder/feeder.ts'
import type { BirdSettings } from '../bird-settings.ts'
import { poleSites } from '../pole-top/pole-sites.ts'
import type { PoleTopChoice } from '../pole-top/pole-top-choice.ts'
import { assessPole } from './assess-pole.ts'
import type { PoleAssessment } from './pole-assessment.ts'

export interface BirdRecordOfFeeder {
  readonly choices: readonly PoleTopChoice[]
  readonly protections: readonly Protection[]
  readonly settings?: BirdSettings | undefined
}

/** Poles between two calls of `onProgress`. */
const STEP = 50

/** Every real pole, in the feeder's order. `onProgress` is told how many poles are done, of how many. */
export function assessFeeder(
  feeder: Feeder,
  { choices, protections, settings }: BirdRecordOfFeeder,
  onProgress?: (done: number, of: number) => void,
): PoleAssessment[] {
  const sites = poleSites(feeder, choices)
  const items = itemsByPole(protections)
  return sites.map((site, index) => {
    if (index % STEP === 0) onProgress?.(index, sites.length)
    return assessPole(site, items.get(site.pole.id) ?? [], settings)
  })
}

export function itemsByPole(items: readonly Protection[]): Map<string, Protection[]> {
  const byPole = new Map<string, Protection[]>()
  for (const item of items) {
    const own = byPole.get(item.pole)
    if (own) own.push(item)
    else byPole.set(item.pole, [item])
  }
  return byPole
}
