import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'

/** Folder that holds package.json. */
export const PROJECT_FOLDER = fileURLToPath(new URL('../..', import.meta.url))

/**
 * Runs a program in the project folder and shows what it prints.
 * @param {string} program
 * @param {string[]} args
 * @param {{ env?: NodeJS.ProcessEnv, isOutputToStderr?: boolean }} [options]
 * @returns {Promise<number>} exit code; 1 when it could not be started or was ended by a signal
 */
export function runProgram(program, args, options = {}) {
  const output = options.isOutputToStderr ? process.stderr : process.stdout
  const child = spawn(program, args, {
    cwd: PROJECT_FOLDER,
    env: options.env ?? process.env,
    stdio: ['inherit', output, 'inherit'],
  })
  return new Promise((resolve) => {
    child.on('error', (error) => {
      console.error(`${program} could not be started: ${error.message}`)
      resolve(1)
    })
    child.on('close', (code) => resolve(code ?? 1))
  })
}

/**
 * Runs the command-line program of an installed package.
 * @param {string} file path below node_modules
 * @param {string[]} args
 * @param {{ env?: NodeJS.ProcessEnv, isOutputToStderr?: boolean }} [options]
 */
export function runPackage(file, args, options) {
  return runProgram(process.execPath, [`node_modules/${file}`, ...args], options)
}

/**
 * Ends the process with a message when something it cannot do without failed.
 * @param {unknown} error
 * @returns {never}
 */
export function giveUp(error) {
  console.error(error instanceof Error ? error.message : String(error))
  process.exit(1)
}
