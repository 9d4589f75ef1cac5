import { readFeederFolder } from '../layer-files/feeder-folder.ts'
import { isUnreadable } from '../layer-files/layer-finding.ts'
import { fileOfLayer } from '../layer-files/layer-table.ts'
import type { Streams } from './command.ts'
import type { FeederTools } from './feeder-tools.ts'
import { runCommand } from './run-command.ts'

const streams: Streams = {
  out: (text) => process.stdout.write(`${text}\n`),
  err: (text) => process.stderr.write(`${text}\n`),
  redraw: (text) => process.stderr.write(`\r${text}`),
  isErrTerminal: process.stderr.isTTY === true,
}

const tools: FeederTools = {
  readFolder: readFeederFolder,
  fileOfLayer,
  isUnreadable,
  solve: async (feeder, options) => {
    const { solveFeeder } = await import('#domain/electrical/solve-feeder.ts')
    return solveFeeder(feeder, options)
  },
  site: async (feeder, request, onProgress) => {
    const { siteFeeder } = await import('#domain/siting/site-feeder.ts')
    return siteFeeder(feeder, request, { onProgress })
  },
  verify: async (env, knownHead) => {
    const [{ placeOf }, { verifyRecord }] = await Promise.all([
      import('../main.ts'),
      import('../store/verify-record.ts'),
    ])
    return verifyRecord(placeOf(env), knownHead)
  },
  withPeople: async (env, work) => {
    const { openPeopleAtServer } = await import('../main.ts')
    const { people, close } = await openPeopleAtServer(env)
    return work(people).finally(close)
  },
  serve: async (env) => {
    const { runServer } = await import('../main.ts')
    await runServer(env)
  },
}

// A reader that has seen enough, as `head` does, closes the pipe: that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error
  process.exit(0)
})

try {
  process.exitCode = await runCommand(process.argv.slice(2), streams, tools)
} catch (error) {
  streams.err(`crossarm: error: ${error instanceof Error ? error.message : String(error)}`)
  process.exitCode = 1
}
