import { ATTACHMENT_TYPES, MOST_ATTACHMENT_BYTES } from '#contract/attachments.ts'
import { sizeInWords } from './size-in-words.ts'

/**
 * Why a chosen file would be refused, in plain words, or null. The server looks at the content
 * again; this spares the way there.
 */
export function fileFault({
  name,
  type,
  size,
}: Pick<File, 'name' | 'type' | 'size'>): string | null {
  if (size === 0) return `${name} is empty.`
  if (size > MOST_ATTACHMENT_BYTES) {
    return `${name} is ${sizeInWords(size)}; at most ${sizeInWords(MOST_ATTACHMENT_BYTES)} are taken. Take the photo at a lower resolution, or shorten the report.`
  }
  const isKnown = ATTACHMENT_TYPES.some((known) => known === type)
  // A browser that knows no type for the file says nothing: then the content decides.
  if (isKnown || type === '') return null
  if (type === 'image/heic' || type === 'image/heif') {
    return `${name} is in the format HEIC, which browsers cannot show. Set the camera to JPEG, or save it as JPEG first.`
  }
  return `${name} is neither a photo (JPEG, PNG, WebP) nor a report (PDF).`
}
