import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, describe, expect, it, vi } from 'vitest'
import { findChromium } from '../../support/find-chromium.mjs'

afterEach(() => vi.unstubAllEnvs())

describe('looking for a browser', () => {
  it('takes the program that CHROMIUM_PATH names', () => {
    vi.stubEnv('CHROMIUM_PATH', process.execPath)
    expect(findChromium()).toBe(process.execPath)
  })

  it('says so when CHROMIUM_PATH names nothing', () => {
    vi.stubEnv('CHROMIUM_PATH', '/nowhere/chromium')
    expect(() => findChromium()).toThrow('CHROMIUM_PATH names /nowhere/chromium')
  })

  it.runIf(process.platform === 'linux')(
    'takes the one without windows first, unless a whole one is asked for',
    async () => {
      const folder = await mkdtemp(join(tmpdir(), 'crossarm-path-'))
      const [shell, whole] = ['chromium-headless-shell', 'google-chrome'].map((name) =>
        join(folder, name),
      )
      for (const file of [shell, whole]) await writeFile(file ?? '', '', { mode: 0o755 })
      vi.stubEnv('CHROMIUM_PATH', '')
      vi.stubEnv('PATH', folder)
      expect([findChromium(), findChromium({ isWhole: true })]).toEqual([shell, whole])
      await rm(folder, { recursive: true })
    },
  )

  it.runIf(process.platform === 'linux')('finds none where no folder of the path has one', () => {
    vi.stubEnv('CHROMIUM_PATH', '')
    vi.stubEnv('PATH', '/nowhere')
    expect(findChromium()).toBeNull()
  })
})
