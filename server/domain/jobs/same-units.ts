import { phaseMask } from '#domain/units/phases.ts'
import type { BankWork } from './job-plan.ts'

/**
 * Why a bank cannot be worked in the place of the one that stands; null where it can. Every unit of
 * such a job is taken to be in service before the first step, so a phase that only one of the two
 * has would be worked under a wrong start.
 */
export function otherUnits({
  regulator,
  standing,
}: Pick<BankWork, 'regulator' | 'standing'>): string | null {
  if (!standing) return null
  const [now, then] = [placeOf(standing), placeOf(regulator)]
  if (now === then && phaseMask(standing.phases) === phaseMask(regulator.phases)) return null
  return `Bank ${standing.id} stands ${now} with phases ${standing.phases}, and ${regulator.id} is to stand ${then} with phases ${regulator.phases}. One job changes a bank only unit for unit: remove ${standing.id} in a job of its own first, then draft the new one.`
}

function placeOf({ pole, span }: BankWork['regulator']): string {
  return `at pole ${pole} on span ${span}`
}
