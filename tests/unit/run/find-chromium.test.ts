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

  it.runIf(process.platform === 'linux')('finds none where no folder of the path has one', () => {
    vi.stubEnv('CHROMIUM_PATH', '')
    vi.stubEnv('PATH', '/nowhere')
    expect(findChromium()).toBeNull()
  })
})
