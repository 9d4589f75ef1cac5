import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { findFreePort } from './free-port.ts'

const PROJECT_FOLDER = fileURLToPath(new URL('../..', import.meta.url))
/** Builds what is stale and runs the server in the same process. */
export const START = 'server/run/start.mjs'
const START_WITHIN_MS = 120_000

export interface RunningServer {
  /** Address without a slash at the end, as http://127.0.0.1:41234. */
  readonly url: string
  /** Folder of the database; it outlives `stop` when the caller gave it. */
  readonly dataFolder: string
  /** Everything the server has printed so far. */
  readonly output: () => string
  readonly stop: () => Promise<void>
}

export interface ServerChoices {
  /** Left out: a new temporary folder that `stop` removes. */
  readonly dataFolder?: string
  readonly env?: Readonly<Record<string, string>>
  /** Left out: any free one. */
  readonly port?: number
}

/** Builds what is stale, then runs the built server on a free port until `stop`. */
export async function startServer(choices: ServerChoices = {}): Promise<RunningServer> {
  const dataFolder = choices.dataFolder ?? (await mkdtemp(join(tmpdir(), 'crossarm-test-')))
  const port = choices.port ?? (await findFreePort())
  const child = spawn(process.execPath, [START], {
    cwd: PROJECT_FOLDER,
    env: {
      ...process.env,
      ...choices.env,
      HOST: '127.0.0.1',
      PORT: String(port),
      CROSSARM_DATA: dataFolder,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  let printed = ''
  for (const stream of [child.stdout, child.stderr]) {
    stream.setEncoding('utf8').on('data', (text: string) => {
      printed += text
    })
  }
  const stop = async () => {
    await endProcess(child)
    if (!choices.dataFolder) await rm(dataFolder, { recursive: true, force: true })
  }
  const url = `http://127.0.0.1:${port}`
  try {
    await waitUntilReady(url, child)
  } catch (error) {
    await stop()
    throw new Error(`The server did not start. It printed:\n${printed}`, { cause: error })
  }
  return { url, dataFolder, output: () => printed, stop }
}

async function endProcess(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return
  const ended = once(child, 'exit')
  child.kill('SIGTERM')
  const forced = setTimeout(() => child.kill('SIGKILL'), 5_000)
  await ended
  clearTimeout(forced)
}

async function waitUntilReady(url: string, child: ChildProcess): Promise<void> {
  const until = Date.now() + START_WITHIN_MS
  while (Date.now() < until) {
    if (child.exitCode !== null) throw new Error(`It ended with code ${child.exitCode}.`)
    const answer = await fetch(`${url}/api/ready`).catch(() => null)
    if (answer?.ok) return
    await sleep(100)
  }
  throw new Error(`No answer from ${url}/api/ready within ${START_WITHIN_MS / 1000} s.`)
}
