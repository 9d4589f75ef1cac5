import type { JobSummary } from '#contract/jobs.ts'
import type { CaseSolution } from '#domain/electrical/solution.ts'
import type { SolveOptions } from '#domain/electrical/solve-feeder.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Finding, LayerName } from '#domain/feeder/finding.ts'
import type { SiteOutcome } from '#domain/siting/site-feeder.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import type { PeopleAtServer } from '../people/people-at-server.ts'
import type { RecordReport } from '../services/record-report.ts'
import type { ArchiveTools } from './archive-tools.ts'
import type { BirdTools } from './bird-tools.ts'

export interface FeederReading {
  readonly feeder: Feeder | null
  readonly findings: readonly Finding[]
}

/** What the commands call; `main.ts` joins it, so that a command loads only what it uses. */
export interface FeederTools extends ArchiveTools, BirdTools {
  readonly readFolder: (folder: string) => Promise<FeederReading>
  readonly fileOfLayer: (layer: LayerName) => string
  /** True where a file could not be read at all. */
  readonly isUnreadable: (finding: Finding) => boolean
  readonly solve: (feeder: Feeder, options: SolveOptions) => Promise<CaseSolution[]>
  readonly site: (
    feeder: Feeder,
    request: SiteRequest,
    onProgress: (done: number, total: number, phase: string) => void,
  ) => Promise<SiteOutcome>
  /** Poles as a file for a navigation device; all of the feeder without ids. */
  readonly waypoints: (
    feeder: Feeder,
    form: 'gpx' | 'kml',
    poleIds: readonly string[] | undefined,
  ) => Promise<string>
  /** Checks the record of the place that the environment names; `knownHead` is a hash noted down earlier. */
  readonly verify: (env: NodeJS.ProcessEnv, knownHead?: string) => Promise<RecordReport>
  /** Does something with the people of the place that the environment names. */
  readonly withPeople: <Result>(
    env: NodeJS.ProcessEnv,
    work: (people: PeopleAtServer) => Promise<Result>,
  ) => Promise<Result>
  /** Jobs of the place that the environment names, due first. Throws a Refusal without the feeder. */
  readonly jobs: (
    env: NodeJS.ProcessEnv,
    query: { readonly feederId?: string; readonly open?: 'yes' },
  ) => Promise<JobSummary[]>
  /** Takes long work as the environment says; resolves once it does. */
  readonly work: (env: NodeJS.ProcessEnv) => Promise<void>
  /** Starts the server as the environment says; resolves once it listens. */
  readonly serve: (env: NodeJS.ProcessEnv) => Promise<void>
}
