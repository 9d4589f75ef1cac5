import type { SaveProposalBody } from '#contract/proposals.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'

/** A proposal that can be kept on a feeder: a bank at the near end of its first three-phase span. */
export function proposalToKeep(feeder: Feeder, name: string, note = ''): SaveProposalBody {
  const span = feeder.spans.find(({ phases }) => phases.length >= 3)
  if (!span) throw new Error('The feeder has no three-phase span for a bank.')
  return {
    name,
    note,
    request: SiteRequest.parse({}),
    proposal: {
      rank: 1,
      banks: [
        {
          pole: span.from,
          span: span.id,
          phases: 'ABC',
          ratingKva: 76.2,
          ratingA: 100,
          peakA: 60,
          distanceM: 1000,
          bandCentreV: 124,
          bandwidthV: 2,
          delayS: 45,
          windingType: 'B',
          ptRatio: 120,
          ctPrimaryA: 100,
          taps: {},
        },
      ],
      after: { cases: {} },
      reason: 'Made for a test.',
      flags: [],
      marginVolts120: 0.5,
      energyLossKwhPerYear: 1000,
      lossSavedUsdPerYear: 60,
      costUsd: 100_000,
      presentWorthUsd: -99_000,
      nearAlternatives: [],
    },
  }
}
