import encodeQR from 'qr'
import sharp, { type Sharp } from 'sharp'
import { describe, expect, it } from 'vitest'
import { cameraProblem } from '../../../web/crew/scan/camera-problem.ts'
import { decodePixels } from '../../../web/crew/scan/decode-pixels.ts'

const LINK = 'https://crossarm.example/?feeder=skillet&person=crew&pole=S-145'
const WITHIN_MS = 2_000

/** A label as an image file: dark modules of `scale` pixels on white. */
async function labelImage(text: string, scale: number): Promise<Buffer> {
  const rows = encodeQR(text, 'raw', { ecc: 'medium', border: 4 })
  const side = rows.length
  const grey = Buffer.from(rows.flatMap((row) => row.map((isDark) => (isDark ? 0 : 255))))
  return sharp(grey, { raw: { width: side, height: side, channels: 1 } })
    .resize(side * scale, side * scale, { kernel: 'nearest' })
    .png()
    .toBuffer()
}

async function pixelsOf(image: Sharp) {
  const { data, info } = await image.ensureAlpha().raw().toBuffer({ resolveWithObject: true })
  return { width: info.width, height: info.height, data }
}

describe('a label in an image file', () => {
  it('made by the encoder of the same package is read again', async () => {
    const image = sharp(await labelImage(LINK, 5))
    expect(decodePixels(await pixelsOf(image), WITHIN_MS)).toBe(LINK)
  })

  it('is read turned, small in a grey picture, and with the noise of a JPEG file', async () => {
    const label = await sharp(await labelImage(LINK, 4))
      .rotate(17, { background: '#ffffff' })
      .toBuffer()
    const scene = sharp({ create: { width: 900, height: 700, channels: 3, background: '#9a927f' } })
    const photo = await scene
      .composite([{ input: label, left: 350, top: 240 }])
      .jpeg({ quality: 60 })
      .toBuffer()
    expect(decodePixels(await pixelsOf(sharp(photo)), WITHIN_MS)).toBe(LINK)
  })

  it('is not found where there is none', async () => {
    const empty = sharp({ create: { width: 200, height: 200, channels: 3, background: '#808080' } })
    expect(decodePixels(await pixelsOf(empty), WITHIN_MS)).toBeNull()
  })
})

describe('a camera that gives no picture', () => {
  it('is told in plain words, with what to do instead', () => {
    for (const name of ['NotAllowedError', 'NotFoundError', 'NotReadableError', 'SomethingNew']) {
      expect(cameraProblem(name)).toContain('Type the id into the search box, or choose a photo')
    }
    expect(cameraProblem('NotAllowedError')).toContain('does not let this page use the camera')
    expect(cameraProblem('NotFoundError')).toContain('no camera')
  })
})
