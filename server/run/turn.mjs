import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'

const LOOK_AGAIN_MS = 100
/** Longer than any build takes on a small machine. */
const TELL_AFTER_MS = 60_000

/**
 * @param {unknown} error
 * @param {string} code
 */
const hasCode = (error, code) => error instanceof Error && 'code' in error && error.code === code

/**
 * True when the process that wrote the file has ended without removing it.
 * @param {string} file
 */
function isLeftBehind(file) {
  try {
    process.kill(Number(readFileSync(file, 'utf8')), 0)
    return false
  } catch (error) {
    return hasCode(error, 'ESRCH')
  }
}

/**
 * @param {string} file
 * @returns {boolean} false when another process holds it
 */
function take(file) {
  try {
    writeFileSync(file, String(process.pid), { flag: 'wx' })
    return true
  } catch (error) {
    if (hasCode(error, 'EEXIST')) return false
    throw error
  }
}

/**
 * Lets one process at a time do the work: the others wait for their turn.
 * @param {string} file holds the id of the process whose turn it is
 * @param {() => Promise<void>} work
 */
export async function takeTurn(file, work) {
  mkdirSync(dirname(file), { recursive: true })
  for (let waitedMs = 0; !take(file); waitedMs += LOOK_AGAIN_MS) {
    if (isLeftBehind(file)) rmSync(file, { force: true })
    else await sleep(LOOK_AGAIN_MS)
    if (waitedMs === TELL_AFTER_MS) {
      console.error(`Waiting for another build. If none is running, remove ${file}.`)
    }
  }
  try {
    await work()
  } finally {
    rmSync(file, { force: true })
  }
}
