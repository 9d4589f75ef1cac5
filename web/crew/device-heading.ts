import { shareValue, useShared } from '../device/shared-value.ts'
import { type Heading, headingOf, type OrientationReading } from './heading.ts'

/** How the device is turned, or why that is not known. */
export type DeviceHeading =
  | { readonly status: 'off' }
  | { readonly status: 'asking' }
  | ({ readonly status: 'known' } & Heading)
  | { readonly status: 'failed'; readonly problem: string }

const store = shareValue<DeviceHeading>({ status: 'off' })

export function useDeviceHeading(): DeviceHeading {
  return useShared(store)
}

/** Chromium's event is measured from north by itself; others say in the plain one whether it is. */
const EVENTS = ['deviceorientationabsolute', 'deviceorientation'] as const

/** A device without a compass sends nothing, or readings that are not measured from north. */
const FIRST_WITHIN_MS = 4_000
let waiting: number | null = null

/** Some browsers ask the person first, and only from a tap; readings from north are asked for. */
interface AskedFirst {
  requestPermission?: (absolute: boolean) => Promise<'granted' | 'denied'>
}

/** Turns the needles with the device. Called from a tap. */
export async function followHeading(): Promise<void> {
  if (!('DeviceOrientationEvent' in window)) {
    fail('This device has no compass that the browser can read.')
    return
  }
  store.set({ status: 'asking' })
  const orientation = window.DeviceOrientationEvent as unknown as AskedFirst
  try {
    const answer = (await orientation.requestPermission?.(true)) ?? 'granted'
    if (answer !== 'granted') {
      fail('The browser does not let this page read the compass.')
      return
    }
  } catch {
    fail('The browser does not let this page read the compass.')
    return
  }
  for (const event of EVENTS) window.addEventListener(event, hear)
  waiting = window.setTimeout(() => {
    stopHeading()
    fail('No reading came from a compass: this device may have none.')
  }, FIRST_WITHIN_MS)
}

export function stopHeading(): void {
  for (const event of EVENTS) window.removeEventListener(event, hear)
  stopWaiting()
  store.set({ status: 'off' })
}

function fail(problem: string): void {
  store.set({ status: 'failed', problem: `${problem} The arrows stay with north up, as the map.` })
}

function stopWaiting(): void {
  if (waiting !== null) window.clearTimeout(waiting)
  waiting = null
}

function hear(event: Event): void {
  const reading = event as unknown as OrientationReading
  const heading = headingOf(reading, window.screen.orientation?.angle ?? 0)
  if (!heading) return
  stopWaiting()
  const before = store.get()
  // Needles that tremble by less than anyone can see only cost power.
  if (before.status === 'known' && isNear(before.headingDeg, heading.headingDeg)) return
  store.set({ status: 'known', ...heading })
}

const LEAST_TURN_DEG = 1
function isNear(a: number, b: number): boolean {
  const offDeg = Math.abs(((a - b + 540) % 360) - 180)
  return offDeg < LEAST_TURN_DEG
}
