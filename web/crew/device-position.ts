import type { Position } from '#domain/feeder/geometry.ts'
import { shareValue, useShared } from '../device/shared-value.ts'

/** Where the device is, or why that is not known. */
export type DevicePosition =
  | { readonly status: 'off' }
  | { readonly status: 'asking' }
  | { readonly status: 'known'; readonly at: Position; readonly accuracyM: number }
  | { readonly status: 'failed'; readonly problem: string }

const device = shareValue<DevicePosition>({ status: 'off' })
let watch: number | null = null

export function useDevicePosition(): DevicePosition {
  return useShared(device)
}

/** Asks the device for its position and follows it until `stopFollowing`. */
export function followDevice(): void {
  if (!('geolocation' in navigator)) {
    device.set({
      status: 'failed',
      problem: 'This device cannot tell its position. Type coordinates instead.',
    })
    return
  }
  stopFollowing()
  device.set({ status: 'asking' })
  watch = navigator.geolocation.watchPosition(
    ({ coords }) =>
      device.set({
        status: 'known',
        at: [coords.longitude, coords.latitude],
        accuracyM: coords.accuracy,
      }),
    ({ code }) => device.set({ status: 'failed', problem: problemOf(code) }),
    { enableHighAccuracy: true, timeout: 30_000, maximumAge: 5_000 },
  )
}

export function stopFollowing(): void {
  if (watch !== null) navigator.geolocation.clearWatch(watch)
  watch = null
  device.set({ status: 'off' })
}

/** Codes of the W3C Geolocation specification. */
function problemOf(code: number): string {
  if (code === GeolocationPositionError.PERMISSION_DENIED) {
    return 'The browser does not let this page know your position. Allow it in the browser’s site settings, or type coordinates.'
  }
  if (code === GeolocationPositionError.TIMEOUT) {
    return 'No position came within half a minute. Step into the open and try again, or type coordinates.'
  }
  return 'The device does not know where it is right now. Try again in the open, or type coordinates.'
}
