import { volts120OfPu } from '#domain/units/voltage-base.ts'
import { placeOfSlot } from './limit-judge.ts'
import type { Effect } from './site-result.ts'
import type { Study } from './study.ts'
import type { Trial } from './trial.ts'

/** A trial as it is reported: by case, in volts on the 120 base, with places. */
export function effectOf(
  { cases, network }: Pick<Study, 'cases' | 'network'>,
  trial: Trial,
): Effect {
  const entries = cases.flatMap((loadCase, index) => {
    const solved = trial.cases[index]
    if (!solved) return []
    const extreme = (pu: number, slot: number) => ({
      volts120: volts120OfPu(pu),
      ...placeOfSlot(network, slot),
    })
    return [
      [
        loadCase.id,
        {
          lossKw: solved.lossKw,
          customersOutside: solved.outside,
          lowest: extreme(solved.lowestPu, solved.lowestSlot),
          highest: extreme(solved.highestPu, solved.highestSlot),
        },
      ] as const,
    ]
  })
  return { cases: Object.fromEntries(entries) }
}
