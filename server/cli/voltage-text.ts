import type { NodeVoltage, RegulatorState, Totals } from '#domain/electrical/solution.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { VoltageLimits } from '#domain/feeder/header.ts'
import { bypassedBanks } from './bypassed-banks.ts'
import { miles } from './miles.ts'
import { left, right, textTable } from './text-table.ts'
import { highestOf, lowestOf } from './voltage-extremes.ts'
import { type ConvergedCase, PHASES, profileText } from './voltage-profile.ts'

/** The answer for a person: summary, profile, regulators, every node, totals. */
export function voltageText(
  feeder: Feeder,
  solution: ConvergedCase,
  taps: 'fixed' | 'controlled',
): string {
  const { header } = feeder
  const loadCase = header.cases.find(({ id }) => id === solution.caseId)
  const held = taps === 'fixed' ? 'taps as recorded' : 'taps as the controls set them'
  return [
    `${header.name} (${header.id}), ${loadCase?.name ?? solution.caseId} (${solution.caseId}), ${held}`,
    `Converged in ${solution.iterations} iterations.`,
    summary(solution, header.limits),
    '',
    profileText(solution),
    '',
    ...(solution.regulators.length > 0 ? [regulatorTable(solution.regulators), ''] : []),
    ...bypassedLines(feeder),
    nodeTable(solution.nodes, header.limits),
    '',
    totalsText(solution.totals),
  ].join('\n')
}

function summary({ nodes }: ConvergedCase, { lowVolts120, highVolts120 }: VoltageLimits): string {
  const lowest = lowestOf(nodes)
  const highest = highestOf(nodes)
  const below = lowest.all.filter((volts) => volts < lowVolts120).length
  const above = lowest.all.filter((volts) => volts > highVolts120).length
  return [
    `Lowest ${lowest.volts120.toFixed(1)} V at ${lowest.node}, ${lowest.phase} phase; highest ${highest.volts120.toFixed(1)} V at ${highest.node}, ${highest.phase} phase (120 V base).`,
    `Of ${lowest.all.length} node-phases ${below} are below ${lowVolts120} V and ${above} above ${highVolts120} V.`,
  ].join('\n')
}

function regulatorTable(regulators: readonly RegulatorState[]): string {
  const columns = [
    left('regulator'),
    left('pole'),
    left('phase'),
    right('tap'),
    right('output V'),
    right('relay V'),
    right('A'),
    left(''),
  ]
  const rows = regulators.flatMap((bank) =>
    PHASES.filter((phase) => bank.taps[phase] !== undefined).map((phase) => [
      bank.id,
      bank.poleId,
      phase,
      signed(bank.taps[phase] ?? 0),
      figure(bank.outputVolts120[phase], 1),
      figure(bank.relayVolts[phase], 1),
      figure(bank.currentA[phase], 1),
      bank.atLimit.includes(phase) ? 'at the end of its range' : '',
    ]),
  )
  return textTable(columns, rows)
}

/** Banks of which no tap is told, since the line runs past them. */
function bypassedLines(feeder: Feeder): string[] {
  const bypassed = bypassedBanks(feeder).map(({ id, pole }) => `${id} at pole ${pole}`)
  if (bypassed.length === 0) return []
  const [noun, verb] = bypassed.length === 1 ? ['Regulator', 'stands'] : ['Regulators', 'stand']
  return [`${noun} ${bypassed.join(', ')} ${verb} bypassed: the line runs past, no tap acts.`, '']
}

function nodeTable(nodes: readonly NodeVoltage[], limits: VoltageLimits): string {
  const columns = [left('node'), right('mi'), ...PHASES.map((phase) => right(`${phase} V `))]
  const rows = nodes.map(({ id, distanceM, phases }) => [
    id,
    miles(distanceM).toFixed(2),
    ...PHASES.map((phase) => marked(phases[phase]?.volts120, limits)),
  ])
  return `${textTable(columns, rows)}\n- below the low limit, + above the high limit`
}

function marked(volts: number | undefined, { lowVolts120, highVolts120 }: VoltageLimits): string {
  if (volts === undefined) return ''
  const mark = volts < lowVolts120 ? '-' : volts > highVolts120 ? '+' : ' '
  return `${volts.toFixed(1)}${mark}`
}

function totalsText({ inputKw, inputKvar, loadKw, lossKw, lossKvar }: Totals): string {
  const share = inputKw > 0 ? ` (${((100 * lossKw) / inputKw).toFixed(2)} % of input)` : ''
  return `Input ${inputKw.toFixed(1)} kW, ${inputKvar.toFixed(1)} kvar. Load ${loadKw.toFixed(1)} kW. Loss ${lossKw.toFixed(2)} kW, ${lossKvar.toFixed(2)} kvar${share}.`
}

function figure(value: number | undefined, decimals: number): string {
  return value === undefined ? '' : value.toFixed(decimals)
}

export function signed(value: number): string {
  return value > 0 ? `+${value}` : String(value)
}
