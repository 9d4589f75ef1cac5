/** A room is a folder of the code; the table says which others, and which packages, it may import. */
export interface Room {
  readonly folder: string
  /** Rooms whose values may be imported; its own is always allowed. */
  readonly rooms: readonly string[]
  /** Rooms of which only types may be imported. */
  readonly typesOf?: readonly string[]
  /** Packages by name, `node:*` for the built-in modules, `*` for any. */
  readonly packages: readonly string[]
}

const UNITS = 'server/domain/units'
const FEEDER = 'server/domain/feeder'
const NETWORK = 'server/domain/network'
const ELECTRICAL = 'server/domain/electrical'
const SITING = 'server/domain/siting'
const AVIAN = 'server/domain/avian'
const JOBS = 'server/domain/jobs'
const INTAKE = 'server/domain/intake'
const DOMAIN = [UNITS, FEEDER, NETWORK, ELECTRICAL, SITING, AVIAN, JOBS, INTAKE]

const CONTRACT = 'server/contract'
const SERVICES = 'server/services'
const STORE = 'server/store'
const LAYER_FILES = 'server/layer-files'
const BACKGROUND = 'server/background'
const PEOPLE = 'server/people'
const HTTP = 'server/http'
const LOG = 'server/log'
const CLI = 'server/cli'

const UI = 'web/ui'
const DEVICE = 'web/device'
const API = 'web/api'
const WORKERS = 'web/workers'
const MAP = 'web/map'
const STATE = 'web/state'
const RECORD = 'web/record'
const BIRDS = 'web/birds'
const WEB_JOBS = 'web/jobs'
const SHARED_WEB = [UI, DEVICE, API, WORKERS, MAP, STATE, RECORD, BIRDS, WEB_JOBS]
const PERSONS = ['web/planner', 'web/coordinator', 'web/crew', 'web/supervisor']
/** Sheets for everybody: signing in, one's own account, the people, long work; one folder each, like a person's. */
const PEOPLE_SCREENS = ['web/entry', 'web/account', 'web/administration', 'web/long-work']

const person = (folder: string): Room => ({
  folder,
  rooms: [...SHARED_WEB, CONTRACT, ...DOMAIN],
  packages: ['*'],
})

/** The longest folder that holds a file is its room. */
export const ROOMS: readonly Room[] = [
  { folder: UNITS, rooms: [], packages: [] },
  { folder: FEEDER, rooms: [UNITS], packages: ['zod'] },
  { folder: NETWORK, rooms: [UNITS, FEEDER], packages: [] },
  { folder: ELECTRICAL, rooms: [UNITS, NETWORK], typesOf: [FEEDER], packages: [] },
  {
    folder: SITING,
    rooms: [UNITS, FEEDER, NETWORK, ELECTRICAL],
    packages: ['zod', '@turf/*', 'geojson'],
  },
  { folder: AVIAN, rooms: [UNITS, FEEDER], packages: ['zod', '@turf/*', 'geojson'] },
  { folder: JOBS, rooms: [UNITS, FEEDER, NETWORK, ELECTRICAL, SITING, AVIAN], packages: ['zod'] },
  {
    folder: INTAKE,
    rooms: [UNITS, FEEDER, NETWORK],
    packages: ['zod', 'proj4', 'mgrs', 'geojson'],
  },

  { folder: CONTRACT, rooms: DOMAIN, packages: ['zod', '@hono/zod-openapi'] },
  { folder: SERVICES, rooms: [...DOMAIN, CONTRACT], packages: [] },
  {
    folder: STORE,
    rooms: DOMAIN,
    typesOf: [SERVICES],
    packages: ['node:*', 'kysely', 'better-sqlite3', 'pg', 'sharp', 'tar-stream', 'zod'],
  },
  {
    folder: LAYER_FILES,
    rooms: DOMAIN,
    typesOf: [SERVICES],
    packages: ['node:*', 'zod', 'geojson', 'fflate'],
  },
  {
    folder: BACKGROUND,
    rooms: [...DOMAIN, LAYER_FILES],
    typesOf: [SERVICES],
    packages: ['node:*', 'pg', 'pg-boss', 'piscina'],
  },
  { folder: PEOPLE, rooms: [...DOMAIN, CONTRACT, SERVICES], packages: ['node:*', '*'] },
  { folder: LOG, rooms: [], packages: ['pino'] },
  {
    folder: HTTP,
    rooms: [SERVICES, CONTRACT, PEOPLE],
    typesOf: [...DOMAIN, LOG],
    packages: ['node:*', 'hono', '@hono/*', 'prom-client', 'zod'],
  },
  { folder: CLI, rooms: [SERVICES, CONTRACT, PEOPLE], typesOf: DOMAIN, packages: ['node:*'] },

  { folder: UI, rooms: [], packages: ['*'] },
  { folder: DEVICE, rooms: [CONTRACT, ...DOMAIN], packages: ['*'] },
  { folder: API, rooms: [DEVICE, CONTRACT, ...DOMAIN], packages: ['*'] },
  { folder: WORKERS, rooms: [CONTRACT, ...DOMAIN], packages: ['*'] },
  { folder: MAP, rooms: [UI, DEVICE, API, WORKERS, STATE, ...DOMAIN], packages: ['*'] },
  { folder: STATE, rooms: [UI, DEVICE, API, WORKERS, ...DOMAIN], packages: ['*'] },
  { folder: RECORD, rooms: [UI, DEVICE, API, STATE, CONTRACT, ...DOMAIN], packages: ['*'] },
  { folder: BIRDS, rooms: [UI, API, STATE, CONTRACT, ...DOMAIN], packages: ['*'] },
  {
    folder: WEB_JOBS,
    rooms: [UI, DEVICE, API, WORKERS, STATE, RECORD, BIRDS, CONTRACT, ...DOMAIN],
    packages: ['*'],
  },
  ...PERSONS.map(person),
  ...PEOPLE_SCREENS.map(person),
]

/** Files that join rooms, and so may import any of those named. */
export const JOINING_FILES: readonly Room[] = [
  {
    folder: 'server/main.ts',
    rooms: [...DOMAIN, CONTRACT, SERVICES, STORE, LAYER_FILES, BACKGROUND, PEOPLE, HTTP, LOG],
    packages: ['node:*'],
  },
  {
    folder: 'server/cli/main.ts',
    rooms: [...DOMAIN, CONTRACT, SERVICES, STORE, LAYER_FILES, PEOPLE, CLI, 'server/main.ts'],
    packages: ['node:*'],
  },
  {
    folder: 'web',
    rooms: [...SHARED_WEB, ...PERSONS, ...PEOPLE_SCREENS, CONTRACT, ...DOMAIN],
    packages: ['*'],
  },
]
