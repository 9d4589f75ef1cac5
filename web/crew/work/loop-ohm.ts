import { z } from 'zod'
import { keptOnDevice } from './kept-on-device.ts'

/** Impedance of the bypass loop that the crew set for the display, as typed, by job. */
export const loopOhms = keptOnDevice('loop-ohm', z.string())
