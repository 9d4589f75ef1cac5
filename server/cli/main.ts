import { join, resolve } from 'node:path'
import { readFeederFolder } from '../layer-files/feeder-folder.ts'
import { isUnreadable } from '../layer-files/layer-finding.ts'
import { fileOfLayer } from '../layer-files/layer-table.ts'
import type { Manifest } from '../store/archive/manifest.ts'
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
  backUp: async (env, to, onProgress) => {
    const { placeOf, programVersion } = await import('../main.ts')
    const { backUp } = await import('../store/archive/back-up.ts')
    const place = placeOf(env)
    const { manifest, ...written } = await backUp({
      place,
      to: to ?? `${env.CROSSARM_BACKUPS || join(place.dataFolder, 'backups')}/`,
      version: await programVersion(),
      takenAt: new Date().toISOString(),
      onProgress,
    })
    return { ...written, ...countsOf(manifest) }
  },
  restore: async (env, file, to, onProgress) => {
    const { placeOf } = await import('../main.ts')
    const { restore } = await import('../store/archive/restore.ts')
    const named = /^postgres(ql)?:/.test(to ?? '')
      ? { DATABASE_URL: to }
      : { CROSSARM_DATA: to ?? '', DATABASE_URL: undefined }
    const place = placeOf({ ...env, ...(to && named) })
    const manifest = await restore({ file, place, onProgress })
    return { ...manifest, ...countsOf(manifest) }
  },
  move: async (env, url, filesTo, onProgress) => {
    const { placeOf } = await import('../main.ts')
    const { move } = await import('../store/archive/move.ts')
    const { dataFolder } = placeOf(env)
    return move({ dataFolder, url, ...(filesTo && { filesTo: resolve(filesTo) }), onProgress })
  },
  work: async (env) => {
    const { runWorkers } = await import('../main.ts')
    await runWorkers(env)
  },
  serve: async (env) => {
    const { runServer } = await import('../main.ts')
    await runServer(env)
  },
}

function countsOf({ tables, attachments }: Manifest) {
  return { tables, attachments: attachments?.length ?? null }
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
