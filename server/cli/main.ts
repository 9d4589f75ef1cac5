import { join, resolve } from 'node:path'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import type { Surroundings } from '#domain/avian/exposure/surroundings.ts'
import { readFeederFolder } from '../layer-files/feeder-folder.ts'
import { isUnreadable } from '../layer-files/layer-finding.ts'
import { fileOfLayer } from '../layer-files/layer-table.ts'
import type { Manifest } from '../store/archive/manifest.ts'
import type { BirdChoices } from './bird-tools.ts'
import { type Streams, UsageError } from './command.ts'
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
  birdSpecies: async () => {
    const { birdSpecies } = await import('#domain/avian/species/shipped-species.ts')
    return birdSpecies()
  },
  bufferSets: async () => {
    const { SHIPPED_BUFFER_SETS } = await import('#domain/avian/nests/buffer-sets.ts')
    return SHIPPED_BUFFER_SETS.map(({ id, region }) => ({ id, name: region }))
  },
  birds: async (feeder, choices, onProgress) => {
    const [{ birdsOfFeeder }, { designSpecies }] = await Promise.all([
      import('#domain/avian/programme/birds-of-feeder.ts'),
      import('#domain/avian/species/shipped-species.ts'),
    ])
    const settings = await settingsOf(choices)
    const record = { choices: [], protections: feeder.protections, settings }
    const surroundings = await surroundingsOf(choices)
    const found = birdsOfFeeder(feeder, record, surroundings, onProgress)
    return { species: designSpecies(settings), ...found }
  },
  programme: async (feeder, answer, choices, request, onProgress) => {
    const { planProgramme } = await import('#domain/avian/programme/plan-programme.ts')
    const settings = await settingsOf(choices)
    return planProgramme({ ...answer, feeder, settings }, request, onProgress)
  },
  waypoints: async (feeder, form, poleIds) => {
    const [{ gpxOf, kmlOf }, { poleWaypoints }] = await Promise.all([
      import('#domain/jobs/waypoint-files.ts'),
      import('#domain/jobs/pole-waypoints.ts'),
    ])
    const points = poleWaypoints(feeder, poleIds)
    const about = { title: feeder.header.name, madeAt: new Date().toISOString() }
    return form === 'gpx' ? gpxOf(points, about) : kmlOf(points, about)
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
  jobs: async (env, query) => {
    const { openJobsAtServer } = await import('../main.ts')
    const { list, close } = await openJobsAtServer(env)
    return list(query).finally(close)
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

async function settingsOf({ speciesId, bufferSetId }: BirdChoices): Promise<BirdSettings> {
  const { BirdSettings } = await import('#domain/avian/bird-settings.ts')
  return BirdSettings.parse({ designSpeciesId: speciesId, bufferSetId })
}

async function surroundingsOf({ landFolder }: BirdChoices): Promise<Surroundings | undefined> {
  if (landFolder === undefined) return undefined
  const [{ readLand }, { surroundingsOfLand }] = await Promise.all([
    import('../store/shipped-data.ts'),
    import('#domain/avian/exposure/surroundings-of-land.ts'),
  ])
  const layers = await readLand(landFolder).catch((error: unknown) => {
    const why = error instanceof Error ? error.message : String(error)
    throw new UsageError(`--land ${landFolder} cannot be read: ${why}.`)
  })
  return surroundingsOfLand(layers)
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
