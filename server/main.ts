import { randomUUID } from 'node:crypto'
import { setMaxListeners } from 'node:events'
import { existsSync, realpathSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { dirname, join, resolve } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { openWork } from './background/open-work.ts'
import { openThreads, THREADS } from './background/threads.ts'
import { createApp } from './http/app.ts'
import { createHttpServer } from './http/http-server.ts'
import { listen, stopListening } from './http/listen.ts'
import { feederOfLayers, readFeederFolder } from './layer-files/feeder-folder.ts'
import { logOf, openLog, type ServerLog } from './log/server-log.ts'
import { refuseOpenDemo } from './people/demo.ts'
import { openPeople } from './people/people.ts'
import { type PeopleAtServer, peopleAtServer } from './people/people-at-server.ts'
import { sessionSecret } from './people/session-secret.ts'
import { peopleSettingsOf } from './people/settings-of.ts'
import type { SignOn } from './people/sign-on.ts'
import { draftDemoJobs } from './services/demo-jobs.ts'
import { fillStore } from './services/fill-store.ts'
import { jobLister } from './services/list-jobs.ts'
import type { Ports } from './services/ports.ts'
import { createServices } from './services/services.ts'
import { workKinds } from './services/work-kinds.ts'
import { BackupSchedule, type Schedule } from './store/archive/backup-schedule.ts'
import { type OpenStore, openStore } from './store/open-store.ts'
import type { Place } from './store/place.ts'
import { listShippedData } from './store/shipped-data.ts'
import { whyUnavailable } from './store/unavailable.ts'

export interface ServerOptions {
  /** Address to listen on; loopback when left out. */
  readonly host?: string
  /** 0 takes any free port. */
  readonly port?: number
  /** Folder of the database; `data` in the project folder when left out. */
  readonly dataFolder?: string
  /** Feeders and base maps to fill the database with. */
  readonly geodataFolder?: string
  /** Built screens. */
  readonly webFolder?: string
  /** Style of a base map that the utility serves itself. */
  readonly mapStyleUrl?: string
  /** Host names by which the server is reached, beside its addresses. */
  readonly names?: readonly string[]
  /** Address by which people reach the server, as https://crossarm.example. */
  readonly origin?: string
  /** A PostgreSQL database in place of the file in the data folder. */
  readonly databaseUrl?: string
  /** The demo can be entered without a password, on this machine only; so when left out. */
  readonly isDemo?: boolean
  /** What cookies are signed with; made once and kept in the data folder when left out. */
  readonly secret?: string
  /** The utility's own sign-on. */
  readonly signOn?: SignOn | null
  /** People may sign in with passkeys. */
  readonly hasPasskeys?: boolean
  /** Long work runs in this process too; so when left out. */
  readonly hasWorkers?: boolean
  /** Where backups go, and when they are made by themselves; never where `schedule` is null. */
  readonly backups?: {
    readonly folder: string
    readonly schedule: Pick<Schedule, 'everyHours' | 'keep'> | null
  }
  /** How often event streams give a sign of life; 15 s when left out. */
  readonly streamBeatMs?: number
  /** Left out: only what goes wrong is told. */
  readonly log?: ServerLog
}

export interface RunningServer {
  /** Where it answers, as http://127.0.0.1:8080. */
  readonly address: string
  /** By which the first administrator comes in, once; null where there is one. */
  readonly firstLink: string | null
  /** Lets answers under way finish, ends studies and closes the database. */
  stop(): Promise<void>
}

const DEFAULT_HOST = '127.0.0.1'
const DEFAULT_PORT = 8080

/**
 * Opens the database, fills it where it lacks shipped data, and listens.
 *
 * @throws Error saying what to do where the data folder or the port cannot be used.
 */
export async function startServer(options: ServerOptions = {}): Promise<RunningServer> {
  const project = projectFolder()
  const dataFolder = options.dataFolder ?? join(project, 'data')
  const log = options.log ?? openLog({ level: 'warn', isPlain: false, secrets: [] })
  const reportFault = (fault: unknown) => log.fault(fault)
  const isDemo = options.isDemo ?? true
  if (isDemo) refuseOpenDemo(options.host ?? DEFAULT_HOST, options.origin)
  const { databaseUrl } = options
  const version = await programVersion()
  const place: Place = { dataFolder, ...(databaseUrl && { databaseUrl }) }
  const backupsFolder = options.backups?.folder ?? join(dataFolder, 'backups')
  const store = await openStore({ ...place, isServer: true, backupsFolder, version, reportFault })
  const background = await openBackground(store, options, reportFault).catch(async (error) => {
    await store.close()
    throw error
  })
  const schedule = options.backups?.schedule
  const backups = schedule
    ? new BackupSchedule({
        ...{ ...schedule, folder: backupsFolder, database: store.database, place, version, clock },
        reportFault,
        onWritten: ({ file, missing }) => {
          log.info(`Backup written: ${file}`)
          if (missing.length > 0) log.warn(`Attached files are missing: ${missing.length}`)
        },
      })
    : null
  const closeAll = async () => {
    await backups?.stop()
    await background.close()
    await store.close()
  }
  const ports: Ports = {
    store,
    work: background.work,
    threads: background.threads,
    readLayers: feederOfLayers,
    clock,
    newId: randomUUID,
    reportFault,
  }
  const services = createServices(ports)
  try {
    if (isDemo) {
      const geodata = options.geodataFolder ?? join(project, 'geodata')
      const shipped = await listShippedData(geodata, readFeederFolder)
      const { refused } = await fillStore({ store, clock }, shipped)
      refused.forEach(reportFault)
    }
    const drafting = isDemo ? draftDemoJobs(ports).catch(reportFault) : undefined
    const people = await openPeople({
      store,
      database: { db: store.database.plain, type: store.database.kind },
      secret: await sessionSecret(dataFolder, options.secret),
      origin: options.origin ?? null,
      isDemo,
      signOn: options.signOn ?? null,
      hasPasskeys: options.hasPasskeys ?? false,
      clock,
      newId: randomUUID,
      reportFault,
    })
    const stopping = new AbortController()
    // Every open stream listens to it.
    setMaxListeners(0, stopping.signal)
    const app = createApp(services, {
      people,
      settings: async () => ({
        mapStyleUrl: options.mapStyleUrl ?? null,
        ...(await people.settings()),
      }),
      mapStyleUrl: options.mapStyleUrl ?? null,
      isEncrypted: options.origin?.startsWith('https:') ?? false,
      origin: options.origin ?? null,
      names: [options.host ?? DEFAULT_HOST, ...(options.names ?? [])],
      webFolder: options.webFolder ?? join(project, 'dist/web'),
      version,
      log,
      whyUnavailable,
      readiness: { stopping: stopping.signal, askDatabase: () => store.database.ask() },
      measures: {
        databaseWrites: () => store.database.writes,
        workByState: () => store.work.countByState(),
        followers: () => services.changes.followers,
      },
      ...(options.streamBeatMs !== undefined && { streamBeatMs: options.streamBeatMs }),
    })
    await drafting
    const server = createHttpServer(app)
    const { host = DEFAULT_HOST, port = DEFAULT_PORT } = options
    const address = await listen(server, host, port)
    const stop = async () => {
      stopping.abort()
      services.changes.stop()
      await Promise.all([stopListening(server), background.work.stop()])
      await closeAll()
    }
    const atServer = peopleAtServer(people.ports, options.origin ?? address)
    const first = isDemo ? null : await atServer.inviteFirstAdministrator()
    return { address, firstLink: first?.link ?? null, stop }
  } catch (error) {
    await closeAll()
    throw error
  }
}

/** Threads, and the long work that runs in them. */
async function openBackground(
  store: OpenStore,
  { databaseUrl, hasWorkers = true }: ServerOptions,
  reportFault: (fault: unknown) => void,
) {
  const threads = openThreads(workerFile)
  const work = await openWork({
    store: store.work,
    kinds: workKinds({ store, threads, clock }),
    clock,
    reportFault,
    slots: hasWorkers ? THREADS : 0,
    ...(databaseUrl && { databaseUrl }),
  })
  const close = async () => {
    await work.stop()
    await threads.close()
  }
  return { threads, work, close }
}

function clock(): string {
  return new Date().toISOString()
}

/** A stop that takes longer is cut short: whoever stops a server waits only so long. */
const STOP_WITHIN_MS = 25_000

/** Starts as the environment says (HOST, PORT, CROSSARM_…), prints the address, and stops on a signal. */
export async function runServer(env: NodeJS.ProcessEnv): Promise<void> {
  const log = logOf(env, process.stdout.isTTY)
  const server = await startServer({ ...optionsOf(env), log })
  console.log(`Crossarm answers at ${server.address}`)
  if (server.firstLink) console.log(firstLinkWords(server.firstLink))
  stopOnSignal(() => server.stop(), log)
}

/** Takes long work from the place that the environment names, and answers nobody, until a signal. */
export async function runWorkers(env: NodeJS.ProcessEnv): Promise<void> {
  const log = logOf(env, process.stdout.isTTY)
  const reportFault = (fault: unknown) => log.fault(fault)
  const place = placeOf(env)
  const store = await openStore({ ...place, reportFault })
  const background = await openBackground(store, place, reportFault)
  console.log(`Crossarm takes long work, ${THREADS} at once`)
  stopOnSignal(async () => {
    await background.close()
    await store.close()
  }, log)
}

/** The first signal stops in good order, within a time; the second one at once. */
function stopOnSignal(stop: () => Promise<void>, log: ServerLog): void {
  let isStopping = false
  const onSignal = (signal: string) => {
    if (isStopping) process.exit(1)
    isStopping = true
    log.info(`Stopping on ${signal}`)
    setTimeout(() => {
      log.warn(`Not stopped within ${STOP_WITHIN_MS / 1000} s: cut short`)
      process.exit(1)
    }, STOP_WITHIN_MS).unref()
    stop().then(
      () => {
        log.info('Stopped')
        process.exit(0)
      },
      (error: unknown) => giveUp(error),
    )
  }
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, onSignal)
}

/** @throws Error naming the variable that cannot be used. */
export function optionsOf(env: NodeJS.ProcessEnv): ServerOptions {
  const { HOST, PORT, CROSSARM_DATA, CROSSARM_MAP_STYLE, CROSSARM_NAMES } = env
  if (CROSSARM_MAP_STYLE && !URL.canParse(CROSSARM_MAP_STYLE)) {
    throw new Error(`CROSSARM_MAP_STYLE must be a full address, got "${CROSSARM_MAP_STYLE}".`)
  }
  return {
    ...(HOST && { host: HOST }),
    ...(PORT && { port: portOf(PORT) }),
    ...(CROSSARM_DATA && { dataFolder: resolve(CROSSARM_DATA) }),
    ...(CROSSARM_MAP_STYLE && { mapStyleUrl: CROSSARM_MAP_STYLE }),
    ...(CROSSARM_NAMES && { names: CROSSARM_NAMES.split(',').map((name) => name.trim()) }),
    ...(env.DATABASE_URL && { databaseUrl: env.DATABASE_URL }),
    ...(env.CROSSARM_WORK && { hasWorkers: hasWorkersOf(env.CROSSARM_WORK) }),
    ...backupSettingsOf(env),
    ...peopleSettingsOf(env),
  }
}

/** @throws Error naming the variable that cannot be used. */
function backupSettingsOf(env: NodeJS.ProcessEnv): Pick<ServerOptions, 'backups'> {
  const { CROSSARM_BACKUPS, CROSSARM_BACKUP_EVERY_HOURS, CROSSARM_BACKUP_KEEP } = env
  if (!CROSSARM_BACKUPS) return {}
  const everyHours = countOf('CROSSARM_BACKUP_EVERY_HOURS', CROSSARM_BACKUP_EVERY_HOURS, 24, 0)
  const keep = countOf('CROSSARM_BACKUP_KEEP', CROSSARM_BACKUP_KEEP, 14, 1)
  const schedule = everyHours === 0 ? null : { everyHours, keep }
  return { backups: { folder: resolve(CROSSARM_BACKUPS), schedule } }
}

function countOf(name: string, text: string | undefined, otherwise: number, least: number): number {
  const count = text ? Number(text) : otherwise
  if (Number.isInteger(count) && count >= least && count <= 8760) return count
  throw new Error(`${name} must be a whole number from ${least} to 8760, got "${text}".`)
}

function hasWorkersOf(text: string): boolean {
  if (text === 'on' || text === 'off') return text === 'on'
  throw new Error(`CROSSARM_WORK must be on or off, got "${text}".`)
}

function portOf(text: string): number {
  const port = Number(text)
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port
  throw new Error(`PORT must be a number from 0 to 65535, got "${text}".`)
}

function firstLinkWords(link: string): string {
  return `Nobody administers this server yet. The first administrator comes in here, within the hour:\n${link}`
}

/** The people of the record that the environment names, for the command line. */
export async function openPeopleAtServer(
  env: NodeJS.ProcessEnv,
): Promise<{ readonly people: PeopleAtServer; close(): Promise<void> }> {
  const store = await openStore(placeOf(env))
  const { origin = `http://${env.HOST || DEFAULT_HOST}:${env.PORT || DEFAULT_PORT}` } =
    peopleSettingsOf(env)
  const people = peopleAtServer({ store, clock, newId: randomUUID }, origin)
  return { people, close: () => store.close() }
}

/** The jobs of the record that the environment names, for the command line. */
export async function openJobsAtServer(env: NodeJS.ProcessEnv) {
  const store = await openStore(placeOf(env))
  return { list: jobLister(store), close: () => store.close() }
}

function giveUp(error: unknown): never {
  console.error(error instanceof Error ? error.message : String(error))
  process.exit(1)
}

/** Where the record is that the environment names. */
export function placeOf({ CROSSARM_DATA, DATABASE_URL }: NodeJS.ProcessEnv): Place {
  const dataFolder = CROSSARM_DATA ? resolve(CROSSARM_DATA) : join(projectFolder(), 'data')
  return { dataFolder, ...(DATABASE_URL && { databaseUrl: DATABASE_URL }) }
}

/** Nearest folder above this file that holds package.json, both from the sources and once built. */
function projectFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url))
  while (!existsSync(join(folder, 'package.json'))) {
    const above = dirname(folder)
    if (above === folder) throw new Error('Expected a package.json above the server, found none.')
    folder = above
  }
  return folder
}

export async function programVersion(): Promise<string> {
  const text = await readFile(join(projectFolder(), 'package.json'), 'utf8')
  return (JSON.parse(text) as { version: string }).version
}

/** Program of a worker thread. */
function workerFile(name: string): URL {
  const isSource = import.meta.url.endsWith('.ts')
  const file = isSource ? `server/background/${name}.ts` : `dist/server/${name}.js`
  return pathToFileURL(join(projectFolder(), file))
}

function isStartedDirectly(): boolean {
  const [, started] = process.argv
  return started !== undefined && realpathSync(started) === fileURLToPath(import.meta.url)
}

if (isStartedDirectly()) await runServer(process.env).catch(giveUp)
