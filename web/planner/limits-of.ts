import type { FeederHeader, VoltageLimits } from '#domain/feeder/header.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'

/** Limits that a study judges by: its own where it names them, else the feeder's. */
export function limitsOf({ limits }: FeederHeader, request: SiteRequest): VoltageLimits {
  return {
    lowVolts120: request.lowVolts120 ?? limits.lowVolts120,
    highVolts120: request.highVolts120 ?? limits.highVolts120,
  }
}
