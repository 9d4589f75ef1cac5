import type { ChosenPole, Programme, Round } from '#domain/avian/programme/programme.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { measureWords } from './birds-text.ts'
import { miles } from './miles.ts'
import { left, right, textTable } from './text-table.ts'

/** The programme for a person: what it does, rounds, poles, what was left out and why, the curve. */
export function programmeText(feeder: Feeder, programme: Programme): string {
  const { rounds, poles, leftOut, curve } = programme
  return [
    `${feeder.header.name} (${feeder.header.id})`,
    '',
    ...summary(programme),
    '',
    ...(poles.length > 0
      ? [roundTable(rounds), '', poleTable(poles), '', ...noteLines(poles)]
      : []),
    ...leftOutLines(leftOut),
    '',
    'Benefit against budget',
    textTable(
      [right('USD'), right('poles'), right('reduction')],
      curve.map(({ budgetUsd, poles: count, reduction }) => [
        budgetUsd.toFixed(0),
        String(count),
        reduction.toFixed(2),
      ]),
    ),
    '',
    'Reduction is hazard times exposure taken away: judgement that puts poles in order, no count of',
    'birds. Costs are assumptions until entered. Nest buffers are advisory; the agency decides.',
  ].join('\n')
}

function summary(programme: Programme): string[] {
  const { request, poles, costUsd, reduction, reductionPossible, gap, rounds } = programme
  const share = reductionPossible > 0 ? (100 * reduction) / reductionPossible : 0
  const days = rounds.reduce((sum, { crewDays }) => sum + crewDays, 0)
  const proof =
    gap === 0
      ? 'No other choice takes away more: proven.'
      : `Another choice could take away at most ${(100 * gap).toFixed(1)} % more of the best.`
  return [
    `${poles.length} poles for $${costUsd.toFixed(0)} of $${request.budgetUsd.toFixed(0)}, ${request.from} to ${request.to}, ${days.toFixed(1)} crew days`,
    `They take away ${reduction.toFixed(2)} of ${reductionPossible.toFixed(2)} (${share.toFixed(0)} %). ${proof}`,
  ]
}

function roundTable(rounds: readonly Round[]): string {
  const columns = [
    right('round'),
    left('from'),
    left('to'),
    right('crew days'),
    right('mi'),
    left('poles in order of driving'),
  ]
  return textTable(
    columns,
    rounds.map(({ poles, driveM, crewDays, earliest, latest }, index) => [
      String(index + 1),
      earliest,
      latest,
      crewDays.toFixed(1),
      miles(driveM).toFixed(1),
      poles.join(' '),
    ]),
  )
}

function poleTable(poles: readonly ChosenPole[]): string {
  const columns = [
    left('pole'),
    right('round'),
    right('reduction'),
    right('cost USD'),
    left('measures'),
  ]
  return textTable(
    columns,
    poles.map(({ pole, round, reduction, costUsd, measures }) => [
      pole,
      String(round + 1),
      reduction.toFixed(3),
      costUsd.toFixed(0),
      measureWords(measures),
    ]),
  )
}

function noteLines(poles: readonly ChosenPole[]): string[] {
  const lines = poles
    .filter(({ notes }) => notes.length > 0)
    .map(({ pole, notes }) => `! ${pole}: ${notes.join(' ')}`)
  return lines.length > 0 ? [...lines, ''] : []
}

/** Poles by why they were left out, figures of their own aside. */
function leftOutLines(leftOut: Programme['leftOut']): string[] {
  const byReason = new Map<string, string[]>()
  for (const { pole, why } of leftOut) {
    const kind = why.split(': ')[0]?.replace(/[$]?\d[\d,]*/g, '…') ?? why
    byReason.set(kind, [...(byReason.get(kind) ?? []), pole])
  }
  const lines = [...byReason]
    .toSorted(([, a], [, b]) => b.length - a.length)
    .map(([why, poles]) => `${String(poles.length).padStart(6)}  ${why} (${listed(poles)})`)
  return [
    `Left out: ${leftOut.length} poles that are not closed. Each with its reason: --json.`,
    ...lines,
  ]
}

function listed(names: readonly string[]): string {
  const shown = names.slice(0, 5).join(', ')
  return names.length > 5 ? `${shown} and ${names.length - 5} more` : shown
}
