import { type Browser, chromium } from 'playwright-core'
import { findChromium } from './find-chromium.mjs'
import { HOW_TO_INSTALL } from './install-chromium.mjs'

/**
 * Two pages of the browser's own below its address line, which it loads with every window. A later
 * list of features replaces an earlier one, so those that playwright switches off stand here too.
 */
const SWITCHED_OFF = [
  'WebUIOmniboxPopup',
  'WebUIOmniboxAimPopup',
  'AimEnabled',
  'AvoidCorsURLLoaderRestartOnRedirect',
  'AvoidUnnecessaryBeforeUnloadCheckSync',
  'DestroyProfileOnBrowserClose',
  'HttpsFirstBalancedModeAutoEnable',
  'HttpsUpgrades',
  'LensOverlay',
  'MediaRouter',
  'NetworkTimeServiceQuerying',
  'OptimizationHints',
  'PaintHolding',
  'PreconnectToSearch',
  'ThirdPartyStoragePartitioning',
]

/** WebGL in software, so that a machine without a graphics card draws the map, and no traffic of the browser's own. */
export const CHROMIUM_FLAGS = [
  '--no-sandbox',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
  // Only the map needs the processor that stands in for a graphics card: the page around it is quicker without.
  '--disable-gpu-compositing',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  `--disable-features=${SWITCHED_OFF.join(',')}`,
]

export function launchChromium(): Promise<Browser> {
  const executablePath = findChromium()
  if (!executablePath) throw new Error(HOW_TO_INSTALL)
  return chromium.launch({ executablePath, args: CHROMIUM_FLAGS })
}
