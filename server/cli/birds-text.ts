import type { PoleAssessment } from '#domain/avian/assessment/pole-assessment.ts'
import type { MeasureSet } from '#domain/avian/measures/measure.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { BirdAnswer } from './bird-tools.ts'
import { inches } from './inches.ts'
import { left, right, textTable } from './text-table.ts'

/** The answer for a person: how many poles stand how, and those with something to do, first the first. */
export function birdsText(feeder: Feeder, answer: BirdAnswer): string {
  const { species, assessments, ranked } = answer
  const byPole = new Map(assessments.map((assessment) => [assessment.poleId, assessment]))
  const open = ranked.filter(({ poleId }) => (byPole.get(poleId)?.pairs.length ?? 0) > 0)
  const columns = [
    right('first'),
    left('pole'),
    left('state'),
    right('pairs'),
    right('in'),
    left('tightest'),
    right('exposure'),
    right('cost USD'),
    left('measures'),
  ]
  const rows = open.map(({ poleId, exposure }, index) => [
    String(index + 1),
    poleId,
    ...pairCells(byPole.get(poleId)),
    exposure.toFixed(2),
    ...measureCells(answer.cheapest.get(poleId)),
  ])
  return [
    `${feeder.header.name} (${feeder.header.id}), species: ${species.name}`,
    '',
    ...stateLines(assessments),
    '',
    open.length > 0
      ? textTable(columns, rows)
      : 'No pair can be bridged on a pole that could be drawn.',
    '',
    'Costs, and sizes of other birds than eagles, are assumptions until entered; order by hazard',
    'and exposure is judgement. Covers protect birds from brief contact; they do not insulate people.',
  ].join('\n')
}

function stateLines(assessments: readonly PoleAssessment[]): string[] {
  const counts = new Map<string, number>()
  for (const { state } of assessments) counts.set(state, (counts.get(state) ?? 0) + 1)
  return [...counts].map(([state, count]) => `${String(count).padStart(6)}  ${state}`)
}

function pairCells(assessment: PoleAssessment | undefined): string[] {
  const tightest = assessment?.pairs[0]
  return [
    assessment?.state ?? '',
    String(assessment?.pairs.length ?? 0),
    tightest ? inches(tightest.distanceM).toFixed(0) : '',
    tightest ? `${tightest.partA.label} to ${tightest.partB.label}` : '',
  ]
}

function measureCells(best: MeasureSet | undefined): string[] {
  if (!best || best.uses.length === 0) return ['', 'none known']
  const leftOpen = best.leftOpen.length > 0 ? `, leaves ${best.leftOpen.length} open` : ''
  return [best.costUsd.toFixed(0), measureWords(best.uses) + leftOpen]
}

/** "bushing cover on 3 parts, insulated jumper on 6 parts" */
export function measureWords(
  uses: readonly { readonly kind: string; readonly partIds: readonly string[] }[],
): string {
  return uses
    .map(({ kind, partIds }) => (partIds.length > 1 ? `${kind} on ${partIds.length} parts` : kind))
    .join(', ')
}
