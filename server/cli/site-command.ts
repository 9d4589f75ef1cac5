import { StartStudyBody } from '#contract/studies.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import { type Command, UsageError } from './command.ts'
import { findingLine, refusalCode, reportReading } from './finding-line.ts'
import { ProgressLine } from './progress-line.ts'
import { oneOf, readArguments, voltsOf } from './read-arguments.ts'
import { siteJson } from './site-json.ts'
import { siteText } from './site-text.ts'

const HELP = `Usage: crossarm site <feeder folder> [--banks 1|2] [--goal service|loss]
                     [--taps controlled|search] [--compensation worked-out|none]
                     [--low <volts>] [--high <volts>] [--json]

Says on which pole one or two voltage regulator banks belong, and why. Every load case is judged.

  <feeder folder>    a feeder folder, or one zip of it
  --banks 1|2        number of banks to place (1 without the option)
  --goal service     fewest customers outside the limits, then cost (without the option)
  --goal loss        least loss with no node above the high limit
  --taps controlled  every bank follows its control (without the option)
  --taps search      one common position of each bank is a free variable
  --compensation worked-out
                     band centre, R and X of the banks proposed are worked out from the load
                     cases, and plain settings stay where that is not worth it (without the option)
  --compensation none
                     the band centre as it is, without line-drop compensation
  --low <volts>      lowest voltage allowed on the primary, 120 V base; without it the feeder's own
  --high <volts>     highest voltage allowed on the primary, 120 V base; without it the feeder's own
  --json             one JSON object instead of tables:
                     {feeder, before, tried, proof, notes: […],
                      proposals: [{rank, reason, after,
                        banks: [{pole, span, phases, ratingKva, ratingA,
                                 bandCentreV, rV, xV, settings: {why, chosen, plain, …},
                                 taps: {<case>: {A, B, C}}, …}], …}],
                      excluded: [{pole, reasons: […]}],
                      bypassed: [{id, pole, words, after}]}
                     before and after are {cases: {<case>: {lossKw, customersOutside,
                       lowest: {volts120, node, phase}, highest: {…}}}}; kVA and A are of one
                     single-phase unit; bypassed is left out where no bank stands so.

Progress is shown where the error stream is a terminal; an interrupt stops the search.

Exit code: 0 done; 1 the feeder was refused or has no solution as it stands; 2 bad usage or
unreadable input.

A proposal is a study result, not a design: the utility's own standards, safety rules and qualified
people decide what is built.`

export const siteCommand: Command = {
  name: 'site',
  summary: 'say on which pole regulator banks belong, and why',
  help: HELP,
  async run(args, streams, tools) {
    const { values, folder } = readArguments(args, {
      banks: { type: 'string' },
      goal: { type: 'string' },
      taps: { type: 'string' },
      compensation: { type: 'string' },
      low: { type: 'string' },
      high: { type: 'string' },
      json: { type: 'boolean' },
    })
    const request = requestOf(values)
    const reading = await tools.readFolder(folder)
    reportReading(reading, streams, tools)
    const { feeder } = reading
    if (!feeder) return refusalCode(reading.findings, tools)
    refuseReversed(request, feeder.header.limits)
    const progress = new ProgressLine(streams)
    const outcome = await tools.site(feeder, request, (done, total, phase) =>
      progress.show(done, total, phase),
    )
    progress.clear()
    switch (outcome.status) {
      case 'done':
        streams.out(
          values.json
            ? JSON.stringify(siteJson(outcome.result), null, 2)
            : siteText(feeder, outcome.result),
        )
        return 0
      case 'rejected':
        for (const finding of outcome.findings) streams.err(findingLine(finding, tools))
        return 1
      case 'not-converged':
        streams.err(`${folder}: case ${outcome.caseId}: error: not converged. ${outcome.what}`)
        return 1
      case 'cancelled':
        streams.err(`${folder}: error: the search was cancelled.`)
        return 1
    }
  },
}

type Values = Partial<Record<'banks' | 'goal' | 'taps' | 'compensation' | 'low' | 'high', string>>

function requestOf({ banks, goal, taps, compensation, low, high }: Values): SiteRequest {
  return StartStudyBody.parse({
    request: {
      banks: Number(oneOf('banks', banks, ['1', '2'])),
      goal: oneOf('goal', goal, ['service', 'loss']),
      taps: oneOf('taps', taps, ['controlled', 'search']),
      compensation: oneOf('compensation', compensation, ['worked-out', 'none']).replace('-', ' '),
      lowVolts120: voltsOf('low', low),
      highVolts120: voltsOf('high', high),
    },
  }).request
}

function refuseReversed(
  { lowVolts120, highVolts120 }: SiteRequest,
  own: { readonly lowVolts120: number; readonly highVolts120: number },
): void {
  const low = lowVolts120 ?? own.lowVolts120
  const high = highVolts120 ?? own.highVolts120
  if (low >= high) {
    throw new UsageError(`The low limit (${low} V) must be below the high limit (${high} V).`)
  }
}
