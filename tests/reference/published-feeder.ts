import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import type { ByPhase, CaseSolution } from '#domain/electrical/solution.ts'
import { type SolveOptions, solveFeeder } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Phase } from '#domain/units/phases.ts'
import { readFeederFolder } from '../../server/layer-files/feeder-folder.ts'

const PUBLISHED = new URL('../../geodata/published/', import.meta.url)

export type PublishedId =
  | 'ieee13'
  | 'ieee34'
  | 'ieee4-yy-balanced'
  | 'ieee4-yy-unbalanced'
  | 'ieee4-dy-balanced'
  | 'ieee4-dy-unbalanced'
  | 'bw33'
  | 'bw69'

export type Converged = Extract<CaseSolution, { status: 'converged' }>

export async function publishedFeeder(id: PublishedId): Promise<Feeder> {
  const { feeder, findings } = await readFeederFolder(fileURLToPath(new URL(id, PUBLISHED)))
  if (!feeder) throw new Error(findings.map(({ what }) => what).join(' '))
  return feeder
}

/** What was published for the feeder; the shape is the caller's to name. */
export function publishedResults<Shape>(id: PublishedId): Shape {
  return JSON.parse(readFileSync(new URL(`${id}/published-results.json`, PUBLISHED), 'utf8'))
}

export function solveOnly(feeder: Feeder, options: SolveOptions): Converged {
  const [solution] = solveFeeder(feeder, options)
  if (solution?.status !== 'converged')
    throw new Error(`Expected a solution of ${feeder.header.id}.`)
  return solution
}

export interface VoltageResults {
  readonly taps: Record<string, Record<Phase, number>>
  readonly voltages: Record<string, ByPhase<{ readonly pu: number; readonly deg: number }>>
  readonly totals: {
    readonly inputKw: number
    readonly inputKvar: number
    readonly lossKw: number
    readonly loadKw: number
  }
}

export interface VoltageDifference {
  readonly node: string
  readonly phase: string
  readonly pu: number
  readonly deg: number
}

/** Every published node-phase against the solution; NaN where the solution lacks it. */
export function voltageDifferences(
  solution: Converged,
  published: VoltageResults['voltages'],
): VoltageDifference[] {
  const nodes = new Map(solution.nodes.map((node) => [node.id, node]))
  return Object.entries(published).flatMap(([node, phases]) =>
    Object.entries(phases).map(([phase, { pu, deg }]) => {
      const found = nodes.get(node)?.phases[phase as Phase]
      return {
        node,
        phase,
        pu: Math.abs((found?.pu ?? Number.NaN) - pu),
        deg: angleBetween(found?.angleDeg ?? Number.NaN, deg),
      }
    }),
  )
}

/** Smallest angle between two directions, degrees. */
export function angleBetween(a: number, b: number): number {
  const turn = Math.abs(a - b) % 360
  return Math.min(turn, 360 - turn)
}
