import { resolve } from 'node:path'
import type { RecordReport } from '../services/record-report.ts'
import { type Command, UsageError } from './command.ts'
import { readOptions } from './read-arguments.ts'

const HELP = `Usage: crossarm verify [--head <hash>] [--data <folder>]

Checks the whole record without changing it; a server may go on running meanwhile:
the chain of the history, the database itself, its rows against the history, and attached files.

The end of the chain is printed as its head. Note it down where nobody who could change the database
can change it. Given as --head later, it shows whether anything up to it was changed or cut off.

  --head <hash>    head of the chain that was noted down earlier, 64 hexadecimal digits
  --data <folder>  folder of the database; without it CROSSARM_DATA, or data.
                   The database is the one of DATABASE_URL where that is set.

Exit code: 0 all is as it was written; 1 something is not; 2 bad usage or no database to check.`

const HASH = /^[0-9a-f]{64}$/

export const verifyCommand: Command = {
  name: 'verify',
  summary: 'check that nothing in the record was changed or lost',
  help: HELP,
  async run(args, streams, tools) {
    const { head, data } = readOptions(args, {
      head: { type: 'string' },
      data: { type: 'string' },
    })
    const knownHead = hashOf(head)
    const env = { ...process.env, ...(data !== undefined && { CROSSARM_DATA: resolve(data) }) }
    const report = await tools.verify(env, knownHead).catch((error: unknown) => {
      streams.err(`crossarm verify: error: ${error instanceof Error ? error.message : error}`)
      return null
    })
    if (report === null) return 2
    const faults = faultsOf(report, knownHead)
    for (const fault of faults) streams.err(fault)
    for (const line of summaryOf(report)) streams.out(line)
    streams.out(faults.length === 0 ? 'All is as it was written.' : counted(faults.length))
    return faults.length === 0 ? 0 : 1
  },
}

function hashOf(text: string | undefined): string | undefined {
  const hash = text?.trim().toLowerCase()
  if (hash === undefined || HASH.test(hash)) return hash
  throw new UsageError(`--head takes 64 hexadecimal digits, not "${text}".`)
}

function faultsOf({ chain, database, rows, files }: RecordReport, knownHead?: string): string[] {
  const { fault, knownHeadSeq } = chain
  const chainFaults = fault ? [`History: broken at entry ${fault.seq}: ${fault.what}.`] : []
  if (knownHead !== undefined && knownHeadSeq === null) {
    chainFaults.push(
      'History: the head that was given is not in the unbroken chain: entries up to it were changed or cut off.',
    )
  }
  return [
    ...chainFaults,
    ...database.map((what) => `Database: ${what}`),
    ...rows.map((what) => `Record: ${what}`),
    ...files.map((what) => `Files: ${what}`),
  ]
}

function summaryOf({ chain, wholeFiles, leftFiles }: RecordReport): string[] {
  const { entries, head, knownHeadSeq } = chain
  const number = `${entries} ${entries === 1 ? 'entry' : 'entries'}`
  const lines = [`History: ${number}${chain.fault ? '' : ', the chain is unbroken'}.`]
  if (knownHeadSeq !== null) lines.push(`Known head: entry ${knownHeadSeq}, unchanged up to it.`)
  if (head) lines.push(`Head: entry ${head.seq}, ${head.hash}`)
  lines.push(`Files: ${wholeFiles} as they were taken in.`)
  return [...lines, ...leftFiles.map((file) => `Notice: nothing refers to ${file}; remove it.`)]
}

function counted(faults: number): string {
  return faults === 1 ? '1 thing is wrong.' : `${faults} things are wrong.`
}
