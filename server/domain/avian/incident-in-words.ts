import type { Incident } from '../feeder/birds.ts'

/** "Golden eagle found 2025-09-02: probable electrocution." */
export function incidentInWords({ species, foundOn, cause }: Incident): string {
  const name = species.charAt(0).toUpperCase() + species.slice(1)
  return `${name} found ${foundOn}: ${cause === 'unknown' ? 'cause unknown' : cause}.`
}
