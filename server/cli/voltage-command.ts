import type { CaseSolution } from '#domain/electrical/solution.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Command } from './command.ts'
import { UsageError } from './command.ts'
import { findingLine, refusalCode, reportReading } from './finding-line.ts'
import { oneOf, readArguments } from './read-arguments.ts'
import { voltageJson } from './voltage-json.ts'
import { voltageText } from './voltage-text.ts'

const HELP = `Usage: crossarm voltage <feeder folder> [--case <id>] [--taps fixed|controlled] [--json]

Solves one load case and prints the voltage of every node on the 120 V base.

  <feeder folder>  a feeder folder, or one zip of it
  --case <id>      load case; without it "peak", or the first if there is none of that id
  --taps fixed     regulators stand where the folder records them (without the option)
  --taps controlled
                   every regulator follows its control, from neutral
  --json           one JSON object instead of tables:
                   {feeder, case, converged, iterations,
                    nodes: [{id, phases: {A: {pu, angleDeg, volts120}, …}}],
                    regulators: [{id, taps: {A: …}}], bypassed: [id],
                    totals: {inputKw, inputKvar, lossKw, lossKvar}}
                   phases that a node lacks have no key; the load side of a regulator is the node
                   "<regulator id>:out"; bypassed are the regulators past which the line runs, which
                   have no taps and no such node. Without convergence: converged false, reason and
                   what, empty lists of nodes and regulators, totals null.

Exit code: 0 solved; 1 the feeder was refused or did not converge; 2 bad usage or unreadable input.`

export const voltageCommand: Command = {
  name: 'voltage',
  summary: 'solve one load case and print the voltage of every node',
  help: HELP,
  async run(args, streams, tools) {
    const { values, folder } = readArguments(args, {
      case: { type: 'string' },
      taps: { type: 'string' },
      json: { type: 'boolean' },
    })
    const taps = oneOf('taps', values.taps, ['fixed', 'controlled'])
    const reading = await tools.readFolder(folder)
    reportReading(reading, streams, tools)
    if (!reading.feeder) return refusalCode(reading.findings, tools)
    const caseIds = [chosenCase(reading.feeder, values.case)]
    const [solved] = await tools.solve(reading.feeder, { caseIds, taps })
    const solution = solved && withPolesOnly(solved)
    if (!solution || solution.status === 'rejected') {
      for (const finding of solution?.findings ?? []) streams.err(findingLine(finding, tools))
      return 1
    }
    if (values.json) {
      streams.out(JSON.stringify(voltageJson(reading.feeder, solution), null, 2))
    } else if (solution.status === 'converged') {
      streams.out(voltageText(reading.feeder, solution, taps))
    }
    if (solution.status === 'converged') return 0
    streams.err(`${folder}: case ${solution.caseId}: error: not converged. ${solution.what}`)
    return 1
  },
}

/** Leaves out the points that the solver sets along a span for a spread load: no pole stands there. */
function withPolesOnly(solution: CaseSolution): CaseSolution {
  if (solution.status !== 'converged') return solution
  const outputs = new Set(solution.regulators.map(({ id }) => `${id}:out`))
  const nodes = solution.nodes.filter(({ id, poleId }) => id === poleId || outputs.has(id))
  return { ...solution, nodes }
}

function chosenCase({ header }: Feeder, wanted: string | undefined): string {
  const ids = header.cases.map(({ id }) => id)
  if (wanted === undefined) return ids.includes('peak') ? 'peak' : (ids[0] ?? '')
  if (ids.includes(wanted)) return wanted
  throw new UsageError(`There is no case "${wanted}"; ${header.id} has ${ids.join(', ')}.`)
}
