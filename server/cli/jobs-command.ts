import { resolve } from 'node:path'
import type { JobSummary } from '#contract/jobs.ts'
import { Refusal } from '../services/refusal.ts'
import type { Command } from './command.ts'
import { readOptions } from './read-arguments.ts'
import { left, right, textTable } from './text-table.ts'

const HELP = `Usage: crossarm jobs [--feeder <id>] [--open] [--data <folder>] [--json]

Lists crew work as the record has it: state, the day it is due, poles and steps done. Whoever may run
this at the server sees all jobs without signing in. A server may go on running meanwhile.

  --feeder <id>    only the jobs of one feeder
  --open           only those that are not closed
  --data <folder>  folder of the database; without it CROSSARM_DATA, or data.
                   The database is the one of DATABASE_URL where that is set.
  --json           one JSON array instead of a table, due first:
                   [{id, feederId, title, kind, state, stateSince, reason, dueOn?, crew, poles: […],
                     stepsDone, stepsLeftOut?, stepsAll, deviations, origin, version, …}]

Exit code: 0 done; 1 there is no such feeder, or the database cannot be used; 2 bad usage.`

export const jobsCommand: Command = {
  name: 'jobs',
  summary: 'list the jobs of the crews',
  help: HELP,
  async run(args, { out, err }, tools) {
    const { feeder, open, data, json } = readOptions(args, {
      feeder: { type: 'string' },
      open: { type: 'boolean' },
      data: { type: 'string' },
      json: { type: 'boolean' },
    })
    const env = { ...process.env, ...(data !== undefined && { CROSSARM_DATA: resolve(data) }) }
    try {
      const jobs = await tools.jobs(env, {
        ...(feeder !== undefined && { feederId: feeder }),
        ...(open && { open: 'yes' }),
      })
      out(json ? JSON.stringify(jobs, null, 2) : jobsText(jobs))
      return 0
    } catch (error) {
      if (!(error instanceof Refusal)) throw error
      err(`crossarm jobs: error: ${error.message}`)
      return 1
    }
  },
}

/** More poles than this are counted. */
const MOST_NAMED = 4

function jobsText(jobs: readonly JobSummary[]): string {
  if (jobs.length === 0) return 'There are no jobs.'
  const rows = jobs.map((job) => [
    job.dueOn ?? '-',
    job.state,
    job.title,
    job.kind,
    job.feederId,
    polesText(job.poles),
    stepsText(job),
    job.crew || '-',
  ])
  const columns = [
    ...[left('due'), left('state'), left('title'), left('kind'), left('feeder'), left('poles')],
    ...[right('steps'), left('crew')],
  ]
  return textTable(columns, rows)
}

/** A step that is left out was passed, but not done. */
function stepsText({ stepsDone, stepsLeftOut = 0, stepsAll }: JobSummary): string {
  const done = `${stepsDone - stepsLeftOut}/${stepsAll}`
  return stepsLeftOut > 0 ? `${done}, ${stepsLeftOut} left out` : done
}

function polesText(poles: readonly string[]): string {
  const named = poles.slice(0, MOST_NAMED).join(' ')
  return poles.length > MOST_NAMED ? `${named} and ${poles.length - MOST_NAMED} more` : named
}
