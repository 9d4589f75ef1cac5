import { existsSync } from 'node:fs'
import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { takeTurn } from '../../../server/run/turn.mjs'

/** Above the highest process id that Linux, macOS or Windows gives. */
const NO_PROCESS = '999999999'

let folder = ''
let file = ''
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'crossarm-turn-'))
  file = join(folder, 'building')
})
afterEach(() => rm(folder, { recursive: true, force: true }))

describe('taking turns', () => {
  it('does one piece of work after the other, never two at once', async () => {
    let atWork = 0
    let mostAtWork = 0
    const work = async () => {
      atWork++
      mostAtWork = Math.max(mostAtWork, atWork)
      await sleep(20)
      atWork--
    }
    await Promise.all([takeTurn(file, work), takeTurn(file, work), takeTurn(file, work)])
    expect(mostAtWork).toBe(1)
  })

  it('does not wait for a process that ended without giving its turn back', async () => {
    await writeFile(file, NO_PROCESS)
    let isDone = false
    await takeTurn(file, async () => {
      await sleep(1)
      isDone = true
    })
    expect(isDone).toBe(true)
  })

  it('gives the turn back when the work fails', async () => {
    const failing = takeTurn(file, () => Promise.reject(new Error('does not build')))
    await expect(failing).rejects.toThrow('does not build')
    expect(existsSync(file)).toBe(false)
  })
})
