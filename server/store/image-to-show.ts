import sharp from 'sharp'
import type { AttachmentType } from '../services/attachment-ports.ts'
import { isAnimatedPng } from './file-type.ts'

export type ImageType = Exclude<AttachmentType, 'application/pdf'>

/** Enough for the cameras of phones; decoded it takes some 200 MB (common practice, no source). */
const MOST_PIXELS = 64_000_000

const LONGEST_SECONDS = 30

/** Photographs lose nothing that can be seen (common practice, no source). */
const QUALITY = 88

const FORMATS: Readonly<Record<ImageType, 'jpeg' | 'png' | 'webp'>> = {
  'image/jpeg': 'jpeg',
  'image/png': 'png',
  'image/webp': 'webp',
}

// What was decoded would stay in memory, and its file open, for a next time that does not come.
sharp.cache(false)

/**
 * Decodes an image whole and writes it anew, turned upright and with nothing but its pixels: no
 * place, time, device, thumbnail or profile of the original, and nothing hidden behind it.
 *
 * @param target file to write
 * @returns why it cannot be, in words that complete "The file …"; null where it was written
 */
export async function writeImageToShow(
  file: string,
  type: ImageType,
  target: string,
): Promise<string | null> {
  const unfit = await whyUnfit(file, type)
  if (unfit !== null) return unfit
  const image = sharp(file, { limitInputPixels: MOST_PIXELS, failOn: 'error' })
    .timeout({ seconds: LONGEST_SECONDS })
    .autoOrient()
    .toFormat(FORMATS[type], type === 'image/png' ? {} : { quality: QUALITY })
  try {
    await image.toFile(target)
    return null
  } catch (error) {
    if (isFullDisk(error)) throw error
    return 'is a broken or cut image. Take it from the device again'
  }
}

async function whyUnfit(file: string, type: ImageType): Promise<string | null> {
  const metadata = await sharp(file, { limitInputPixels: false })
    .metadata()
    .catch(() => null)
  if (metadata === null || metadata.format !== FORMATS[type]) return 'cannot be read as an image'
  const { width, height, pages = 1 } = metadata
  if (width * height > MOST_PIXELS) {
    return `is ${width} by ${height} pixels; up to ${MOST_PIXELS / 1e6} million in all are taken. Make it smaller`
  }
  if (pages > 1 || (type === 'image/png' && (await isAnimatedPng(file)))) {
    return 'is animated; only still images are taken'
  }
  return null
}

function isFullDisk(error: unknown): boolean {
  return error instanceof Error && /no space left|ENOSPC|EDQUOT|disk quota/i.test(error.message)
}
