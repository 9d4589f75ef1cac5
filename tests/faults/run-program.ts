import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import type { Place } from '../../server/store/place.ts'
import { START } from '../support/start-server.ts'

const PROJECT_FOLDER = fileURLToPath(new URL('../..', import.meta.url))

export interface RunningProgram {
  readonly child: ChildProcess
  /** What it prints, line by line, until it ends. */
  readonly lines: AsyncIterable<string>
  /** Resolves to the signal that ended it, null where none did. */
  readonly ended: Promise<NodeJS.Signals | null>
}

/** Runs a program of this folder as a process of its own, on a place. */
export function runProgram(file: string, { dataFolder, databaseUrl }: Place): RunningProgram {
  const program = fileURLToPath(new URL(file, import.meta.url))
  return start(['--import', 'tsx', program, dataFolder, databaseUrl ?? ''], process.env)
}

/**
 * Runs the server as its command does, on any free port. Built, since a start from the sources
 * takes several times the processor time.
 *
 * @param uid of the user that it runs as; that of the test when left out
 */
export function runServer(env: NodeJS.ProcessEnv, uid?: number): RunningProgram {
  return start([START], { ...process.env, HOST: '127.0.0.1', PORT: '0', ...env }, uid)
}

function start(args: readonly string[], env: NodeJS.ProcessEnv, uid?: number): RunningProgram {
  const child = spawn(process.execPath, args, {
    cwd: PROJECT_FOLDER,
    env,
    stdio: ['ignore', 'pipe', 'inherit'],
    ...(uid !== undefined && { uid, gid: uid }),
  })
  const ended = once(child, 'exit').then(([, signal]) => signal as NodeJS.Signals | null)
  return { child, ended, lines: createInterface({ input: child.stdout }) }
}

/** The place that `runProgram` named. */
export function placeOfArguments(): Place {
  const [dataFolder = '', databaseUrl] = process.argv.slice(2)
  return { dataFolder, ...(databaseUrl && { databaseUrl }) }
}

/** Address at which a server that has just been run answers. */
export async function addressOf({ lines }: RunningProgram): Promise<string> {
  for await (const line of lines) {
    const [address] = /http:\/\/127\.0\.0\.1:\d+/.exec(line) ?? []
    if (address !== undefined) return address
  }
  throw new Error('The server ended before it said where it answers.')
}
