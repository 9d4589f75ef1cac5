import { resolve } from 'node:path'
import type { Command } from './command.ts'
import { readOptions } from './read-arguments.ts'

const HELP = `Usage: crossarm work [--data <folder>]

Takes long work (siting studies, large feeders) off the servers of one database and answers nobody.
It may run on any machine that reaches the database; start as many as there is work for. It takes
one item for each processor but one. It stops on an interrupt and hands back what it was at; what it
was at when it is killed goes to another after about 15 seconds.

  --data <folder>  folder of the database; without it CROSSARM_DATA, or data

With DATABASE_URL set, the work is that of the PostgreSQL database. A server started with
CROSSARM_WORK=off runs none itself.

Exit code: 0 stopped; 1 the database cannot be used; 2 bad usage.`

export const workCommand: Command = {
  name: 'work',
  summary: 'take long work off the servers of one database',
  help: HELP,
  async run(args, _streams, tools) {
    const { data } = readOptions(args, { data: { type: 'string' } })
    await tools.work({
      ...process.env,
      ...(data !== undefined && { CROSSARM_DATA: resolve(data) }),
    })
    return 0
  },
}
