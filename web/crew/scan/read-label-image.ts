import { decodePixels, type Pixels } from './decode-pixels.ts'

/** The browser's own reader, where it has one (W3C Shape Detection). */
interface BrowserReader {
  detect: (image: CanvasImageSource) => Promise<readonly { readonly rawValue: string }[]>
}
interface WithReader {
  readonly BarcodeDetector?: new (options: { readonly formats: readonly string[] }) => BrowserReader
}

const PHOTO_WITHIN_MS = 2_000
const FRAME_WITHIN_MS = 40
/** Longest side that is looked at: a label fills enough of it, and slow devices keep up. */
const PHOTO_PX = 1600
const FRAME_PX = 800

/** Text of the label in a chosen picture; null where there is no code in it that can be read. */
export async function readPhoto(file: Blob): Promise<string | null> {
  const picture = await createImageBitmap(file)
  try {
    const size = { width: picture.width, height: picture.height }
    return (
      (await readByBrowser(picture)) ??
      decodePixels(pixelsOf(picture, size, PHOTO_PX), PHOTO_WITHIN_MS)
    )
  } finally {
    picture.close()
  }
}

/** Text of the label in the present frame of the camera. */
export async function readFrame(video: HTMLVideoElement): Promise<string | null> {
  const size = { width: video.videoWidth, height: video.videoHeight }
  if (size.width === 0 || size.height === 0) return null
  return (
    (await readByBrowser(video)) ?? decodePixels(pixelsOf(video, size, FRAME_PX), FRAME_WITHIN_MS)
  )
}

async function readByBrowser(image: CanvasImageSource): Promise<string | null> {
  const { BarcodeDetector } = globalThis as unknown as WithReader
  if (!BarcodeDetector) return null
  try {
    const [found] = await new BarcodeDetector({ formats: ['qr_code'] }).detect(image)
    return found?.rawValue ?? null
  } catch {
    // Some browsers have the reader but not the service behind it.
    return null
  }
}

function pixelsOf(
  image: CanvasImageSource,
  { width, height }: { readonly width: number; readonly height: number },
  mostPx: number,
): Pixels {
  const scale = Math.min(1, mostPx / Math.max(width, height))
  const canvas = document.createElement('canvas')
  canvas.width = Math.max(1, Math.round(width * scale))
  canvas.height = Math.max(1, Math.round(height * scale))
  const context = canvas.getContext('2d', { willReadFrequently: true })
  if (!context) throw new Error('Expected a canvas that can be drawn on.')
  context.drawImage(image, 0, 0, canvas.width, canvas.height)
  return context.getImageData(0, 0, canvas.width, canvas.height)
}
