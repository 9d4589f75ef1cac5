import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { afterEach } from 'vitest'
import type { StoreOptions } from '../../server/store/open-store.ts'

const PROGRAM = fileURLToPath(new URL('work-program.ts', import.meta.url))

export interface WorkProcess {
  /** Ends it as the machine would: nothing of it runs any more. */
  kill(): Promise<void>
  /** Asks it to stop and gives its exit code. */
  stop(): Promise<unknown>
}

/** Starts processes that take work, each killed after the test. */
export function workProcesses(): (options: StoreOptions) => Promise<WorkProcess> {
  let children: ChildProcess[] = []
  afterEach(async () => {
    for (const child of children) await end(child, 'SIGKILL')
    children = []
  })
  return async ({ dataFolder, databaseUrl = '' }) => {
    const child = spawn(process.execPath, ['--import', 'tsx', PROGRAM, dataFolder, databaseUrl], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    children.push(child)
    await once(createInterface({ input: child.stdout }), 'line')
    return {
      kill: async () => {
        await end(child, 'SIGKILL')
      },
      stop: () => end(child, 'SIGTERM'),
    }
  }
}

async function end(child: ChildProcess, signal: NodeJS.Signals): Promise<unknown> {
  if (child.exitCode !== null || child.signalCode !== null) return child.exitCode
  const ended = once(child, 'exit')
  child.kill(signal)
  const [code] = await ended
  return code
}
