import { type Browser, chromium } from 'playwright-core'
import { findChromium } from './find-chromium.mjs'
import { HOW_TO_INSTALL } from './install-chromium.mjs'

/** WebGL in software, so that a machine without a graphics card draws the map, and no traffic of the browser's own. */
export const CHROMIUM_FLAGS = [
  '--no-sandbox',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
]

export function launchChromium(): Promise<Browser> {
  const executablePath = findChromium()
  if (!executablePath) throw new Error(HOW_TO_INSTALL)
  return chromium.launch({ executablePath, args: CHROMIUM_FLAGS })
}
