import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'

export const PROJECT_FOLDER = fileURLToPath(new URL('../..', import.meta.url))
const BUILT = 'dist/server/cli.js'

export interface CliRun {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

function runNode(args: readonly string[]): Promise<CliRun> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, args, {
      cwd: PROJECT_FOLDER,
      stdio: ['ignore', 'pipe', 'pipe'],
    })
    let out = ''
    let err = ''
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text
    })
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      err += text
    })
    child.on('error', reject)
    child.on('close', (code) => resolve({ code, out, err }))
  })
}

/** Builds the command line where its sources are newer; to be called before the first run. */
export async function buildCli(): Promise<void> {
  const { code, err } = await runNode(['server/run/crossarm.mjs', '--help'])
  if (code !== 0) throw new Error(`The command line does not build:\n${err}`)
}

/** Runs the built command line as a person would, from the project folder. */
export function runCli(...args: string[]): Promise<CliRun> {
  return runNode([BUILT, ...args])
}

export const published = (id: string) => `geodata/published/${id}`
