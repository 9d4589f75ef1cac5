import type { VoltageLimits } from '#domain/feeder/header.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import type { CaseEffect, Effect } from '#domain/siting/site-result.ts'
import { marginVolts } from '../state/shown-voltage.ts'

type Extreme = CaseEffect['lowest']

/** The voltage of all cases that lies nearest to a limit, or farthest outside. */
export function worstOf(
  { cases }: Effect,
  limits: VoltageLimits,
  { lowVolts120, highVolts120 }: Pick<SiteRequest, 'lowVolts120' | 'highVolts120'>,
): Extreme {
  const judged = {
    lowVolts120: lowVolts120 ?? limits.lowVolts120,
    highVolts120: highVolts120 ?? limits.highVolts120,
  }
  const extremes = Object.values(cases).flatMap(({ lowest, highest }) => [lowest, highest])
  const [first] = extremes
  if (!first) throw new Error('Expected an effect with at least one case.')
  return extremes.reduce(
    (worst, next) =>
      marginVolts(next.volts120, judged) < marginVolts(worst.volts120, judged) ? next : worst,
    first,
  )
}
