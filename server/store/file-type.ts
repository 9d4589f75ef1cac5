import { type FileHandle, open } from 'node:fs/promises'
import type { AttachmentType } from '../services/attachment-ports.ts'

const MOST_HEAD_BYTES = 16
/** The end of file marker stands on the last line of a PDF; readers look for it in so many bytes (ISO 32000-1, implementation note 18 of its predecessor). */
const PDF_TAIL_BYTES = 1024

/**
 * What a file is by its own first bytes, whatever it is called: JPEG by its start of image marker
 * (ITU-T T.81), PNG by its signature (W3C PNG, 5.2), WebP by its RIFF header (RFC 9649), PDF by
 * its header and its end (ISO 32000-1, 7.5). Null for everything else.
 */
export async function fileType(file: string): Promise<AttachmentType | null> {
  const handle = await open(file, 'r')
  try {
    const head = await readAt(handle, 0, MOST_HEAD_BYTES)
    if (startsWith(head, [0xff, 0xd8, 0xff])) return 'image/jpeg'
    if (startsWith(head, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])) return 'image/png'
    if (textAt(head, 0, 4) === 'RIFF' && textAt(head, 8, 12) === 'WEBP') return 'image/webp'
    if (/^%PDF-\d\.\d/.test(textAt(head, 0, 8))) {
      return (await endsAsPdf(handle)) ? 'application/pdf' : null
    }
    return null
  } finally {
    await handle.close()
  }
}

/** A PNG with an animation says so in a chunk before its image data (W3C PNG third edition, 11.3.6.1). */
export async function isAnimatedPng(file: string): Promise<boolean> {
  const handle = await open(file, 'r')
  try {
    let at = 8
    for (;;) {
      const header = await readAt(handle, at, 8)
      const type = textAt(header, 4, 8)
      if (type === 'acTL') return true
      if (header.length < 8 || type === 'IDAT' || type === 'IEND') return false
      at += 12 + header.readUInt32BE(0)
    }
  } finally {
    await handle.close()
  }
}

async function endsAsPdf(handle: FileHandle): Promise<boolean> {
  const { size } = await handle.stat()
  const tail = await readAt(handle, Math.max(0, size - PDF_TAIL_BYTES), PDF_TAIL_BYTES)
  return tail.includes('%%EOF')
}

async function readAt(handle: FileHandle, position: number, length: number): Promise<Buffer> {
  const { buffer, bytesRead } = await handle.read(Buffer.alloc(length), 0, length, position)
  return buffer.subarray(0, bytesRead)
}

function startsWith(head: Buffer, bytes: readonly number[]): boolean {
  return bytes.every((byte, index) => head[index] === byte)
}

function textAt(bytes: Buffer, from: number, to: number): string {
  return bytes.toString('latin1', from, to)
}
