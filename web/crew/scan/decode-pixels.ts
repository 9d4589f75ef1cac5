import { decodeQR } from 'qr/decode.js'

/** Pixels as a canvas gives them: red, green, blue and opacity, row by row. */
export interface Pixels {
  readonly width: number
  readonly height: number
  readonly data: Uint8ClampedArray | Uint8Array
}

/**
 * The text of a QR code (ISO/IEC 18004) in a picture; null where none is found.
 *
 * @param withinMs time for harder looks; a frame of the camera gets little, since another follows
 */
export function decodePixels({ width, height, data }: Pixels, withinMs: number): string | null {
  try {
    return decodeQR({ width, height, data: Uint8ClampedArray.from(data) }, { timeLimit: withinMs })
  } catch {
    // The decoder throws where it finds no code; the next frame or picture may hold one.
    return null
  }
}
