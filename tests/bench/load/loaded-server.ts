import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { findBinaries, startCluster } from '../../support/postgres-server.ts'

const PROJECT_FOLDER = fileURLToPath(new URL('../../..', import.meta.url))

export type Kind = 'sqlite' | 'postgres'

export interface LoadedServer {
  readonly url: string
  /** Memory that the process holds, MB; NaN where the system does not tell. */
  memoryMb(): number
  stop(): Promise<void>
}

/** The built server with the demo, in a process of its own, on an empty database of the kind. */
export async function startLoadedServer(kind: Kind): Promise<LoadedServer> {
  const folder = await mkdtemp(join(tmpdir(), 'crossarm-load-'))
  const cluster = kind === 'postgres' ? await ownCluster() : null
  const child = spawn(process.execPath, ['dist/server/main.js'], {
    cwd: PROJECT_FOLDER,
    env: {
      ...process.env,
      HOST: '127.0.0.1',
      PORT: '0',
      CROSSARM_DATA: folder,
      CROSSARM_LOG: 'warn',
      DATABASE_URL: cluster?.url ?? '',
    },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const [line] = (await once(createInterface({ input: child.stdout }), 'line')) as [string]
  const url = /http:\/\/\S+/.exec(line)?.[0]
  if (url === undefined) throw new Error(`Expected the address of the server, got "${line}".`)
  child.stdout.resume()
  return {
    url,
    memoryMb: () => memoryMb(child.pid),
    stop: async () => {
      const ended = once(child, 'exit')
      child.kill('SIGTERM')
      await ended
      cluster?.stop()
      await rm(folder, { recursive: true, force: true })
    },
  }
}

async function ownCluster() {
  const binaries = findBinaries()
  if (binaries === null) throw new Error('PostgreSQL 15 or later is not installed.')
  return startCluster(binaries)
}

function memoryMb(pid: number | undefined): number {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8')
    return Number(/VmRSS:\s+(\d+)/.exec(status)?.[1]) / 1024
  } catch {
    return Number.NaN
  }
}
