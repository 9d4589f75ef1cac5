import { execFileSync } from 'node:child_process'
import { chmodSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { findFreePort } from './free-port.ts'

/** Address of the server for the tests, with a role that may make databases. */
export const POSTGRES_VARIABLE = 'CROSSARM_TEST_POSTGRES'

const DEBIAN_FOLDER = '/usr/lib/postgresql'
const OLDEST_MAJOR = 15

/** Commits wait for no disk: these tests kill programs, not machines. */
const QUICK = '-c fsync=off -c max_connections=200 -c unix_socket_directories='

/**
 * Set-up of the whole test run: starts a PostgreSQL of its own in a temporary folder where the
 * binaries are found, and otherwise says plainly that there is none.
 */
export default async function startPostgres(): Promise<() => void> {
  const binaries = findBinaries()
  if (process.env[POSTGRES_VARIABLE]) return () => undefined
  if (binaries === null) {
    console.warn(
      'PostgreSQL is not installed: the store and the server are tested on SQLite alone.',
    )
    return () => undefined
  }
  const server = await startCluster(binaries)
  process.env[POSTGRES_VARIABLE] = server.url
  return server.stop
}

export interface PostgresCluster {
  readonly url: string
  /** Stops at once, as by a fault; what was committed is there again after `start`. */
  readonly halt: () => void
  /** Starts again on the same port. */
  readonly start: () => void
  readonly stop: () => void
}

/** A PostgreSQL server of its own in a temporary folder. */
export async function startCluster(binaries: string): Promise<PostgresCluster> {
  const folder = mkdtempSync(join(tmpdir(), 'crossarm-postgres-'))
  chmodSync(folder, 0o777)
  const data = join(folder, 'data')
  const port = await findFreePort()
  const run = (program: string, ...options: string[]) =>
    asPlainUser(join(binaries, program), options)
  const start = () =>
    run('pg_ctl', '-D', data, '-l', join(folder, 'log'), '-w', '-o', `-p ${port} ${QUICK}`, 'start')
  const halt = () => run('pg_ctl', '-D', data, '-w', '-m', 'immediate', 'stop')
  run(
    'initdb',
    '-D',
    data,
    '-U',
    'crossarm',
    '-A',
    'trust',
    '--no-sync',
    '-E',
    'UTF8',
    '--locale=C',
  )
  start()
  return {
    url: `postgres://crossarm@127.0.0.1:${port}/postgres`,
    halt,
    start,
    stop: () => {
      halt()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** Folder of the newest PostgreSQL that is new enough, or null. */
export function findBinaries(): string | null {
  const majors = existsSync(DEBIAN_FOLDER) ? readdirSync(DEBIAN_FOLDER).map(Number) : []
  const newest = Math.max(OLDEST_MAJOR - 1, ...majors.filter(Number.isFinite))
  const folder = join(DEBIAN_FOLDER, String(newest), 'bin')
  return existsSync(join(folder, 'pg_ctl')) && existsSync(join(folder, 'initdb')) ? folder : null
}

/** PostgreSQL refuses to run as root, by design. */
function asPlainUser(program: string, options: readonly string[]): void {
  const isRoot = process.getuid?.() === 0
  const [command, ...rest] = isRoot
    ? ['runuser', '-u', 'postgres', '--', program, ...options]
    : [program, ...options]
  execFileSync(command ?? program, rest, { stdio: ['ignore', 'ignore', 'pipe'], cwd: '/' })
}
