import { resolve } from 'node:path'
import type { Command } from './command.ts'
import { readOptions } from './read-arguments.ts'

const HELP = `Usage: crossarm serve [--host <address>] [--port <number>] [--data <folder>]

Starts the server with the map and prints its address. It stops on an interrupt.

  --host <address>  address to listen on; without it HOST, or 127.0.0.1
  --port <number>   port to listen on, 0 for any free one; without it PORT, or 8080
  --data <folder>   folder of the database; without it CROSSARM_DATA, or data

Exit code: 0 stopped; 1 the server could not start; 2 bad usage.`

export const serveCommand: Command = {
  name: 'serve',
  summary: 'start the server with the map',
  help: HELP,
  async run(args, _streams, tools) {
    const { host, port, data } = readOptions(args, {
      host: { type: 'string' },
      port: { type: 'string' },
      data: { type: 'string' },
    })
    await tools.serve({
      ...process.env,
      ...(host !== undefined && { HOST: host }),
      ...(port !== undefined && { PORT: port }),
      ...(data !== undefined && { CROSSARM_DATA: resolve(data) }),
    })
    return 0
  },
}
