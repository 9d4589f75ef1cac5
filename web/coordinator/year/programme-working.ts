import type { Programme } from '#domain/avian/programme/programme.ts'
import { usd } from '../../state/format.ts'
import type { Working } from '../../state/working.ts'
import { percent, shareOf } from './curve-point.ts'

/** How a programme was chosen. */
export function programmeWorking(programme: Programme): Working {
  const { request, reduction, reductionPossible, costUsd, gap, poles, rounds } = programme
  return {
    title: 'The programme',
    result: `${percent(shareOf(reduction, reductionPossible))} of what could be taken away, for ${usd(costUsd)}`,
    formula: [
      'Reduction of a pole = hazard that its measures take away × exposure, as in the ranking.',
      'Of all choices of poles whose measures and visits fit the budget and the crew days, the one with the largest sum of reductions is taken (knapsack with a fixed charge for each visit).',
      gap === 0
        ? 'No other choice within the budget takes away more.'
        : `It may lack up to ${(gap * 100).toFixed(1)} % of the best choice.`,
    ],
    inputs: [
      { name: 'Budget', value: usd(request.budgetUsd) },
      { name: 'Poles chosen', value: `${poles.length} in ${rounds.length} rounds` },
      { name: 'One way to one place', value: `${usd(request.visitCostUsd)} (assumption)` },
      { name: 'Poles a crew does in a day', value: `${request.polesPerCrewDay} (assumption)` },
      { name: 'Cost of measures', value: 'of the catalogue (assumptions until entered)' },
    ],
    source:
      'Costs are planning figures, exposure weights are judgement; nest buffers are advisory, and the agency decides. Driving is counted straight from pole to pole.',
    sureness: 'assumption',
    changeAt: 'season and crews above; costs, weights and buffers under Settings',
  }
}
