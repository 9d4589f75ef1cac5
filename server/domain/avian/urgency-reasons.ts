import { milesOfMetres } from '#domain/units/length.ts'
import type { Incident } from '../feeder/birds.ts'
import type { NearbyNest } from './nest-proximity.ts'
import type { BirdPole } from './pole-urgency.ts'
import { verdictInWords } from './separation-words.ts'

/** Why a pole stands where it stands in the list, most weighty first; never empty. */
export function urgencyReasons(found: BirdPole): string[] {
  const reasons = [verdictInWords(found.separation)]
  reasons.push(...found.incidents.map(incidentInWords))
  const inUse = found.nests.find(({ nest }) => nest.status === 'in use')
  if (inUse) reasons.push(nestInWords(inUse))
  const failed = found.items.filter(({ state }) => state === 'failed')
  if (failed.length > 0) {
    reasons.push(`Failed: ${failed.map(({ kind, what }) => `${kind} (${what})`).join(', ')}.`)
  }
  return reasons
}

/** "Golden eagle nest (in use) 0.31 mile away, inside its advisory buffer, in season in …" */
export function nestInWords({ nest, distanceM, isInBuffer, isInSeason }: NearbyNest): string {
  const status = nest.status === 'unknown' ? 'use unknown' : nest.status
  return [
    `${capitalised(nest.species)} nest (${status}) ${milesOfMetres(distanceM).toFixed(2)} mile away`,
    isInBuffer ? 'inside its advisory buffer' : 'outside its advisory buffer',
    isInSeason ? 'in season in the chosen month.' : 'out of season in the chosen month.',
  ].join(', ')
}

/** "Golden eagle found 2025-09-02: probable electrocution." */
export function incidentInWords({ species, foundOn, cause }: Incident): string {
  return `${capitalised(species)} found ${foundOn}: ${cause === 'unknown' ? 'cause unknown' : cause}.`
}

const capitalised = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
