import { randomBytes } from 'node:crypto'
import { deflateSync } from 'node:zlib'
import sharp from 'sharp'

/** Stands in the metadata of every sample image, and must not come out again. */
export const TELLTALE = 'Taken by Robin'

const METADATA = {
  IFD0: { Copyright: TELLTALE, Make: 'Telltale Cameras' },
  IFD3: {
    GPSLatitudeRef: 'N',
    GPSLatitude: '43/1 1/1 2330/100',
    GPSLongitudeRef: 'W',
    GPSLongitude: '107/1 2/1 1110/100',
  },
}

const XMP = `<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#"><rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" dc:creator="${TELLTALE}"/></rdf:RDF></x:xmpmeta>`

export type SampleFormat = 'jpeg' | 'png' | 'webp'

/** A photograph with place, person and device in its metadata; each call gives other pixels. */
export function photo(format: SampleFormat, width = 60, height = 40): Promise<Buffer> {
  const raw = { width, height, channels: 3 as const }
  return sharp(randomBytes(width * height * 3), { raw })
    .withExif(METADATA)
    .withXmp(XMP)
    .withIccProfile('p3')
    .toFormat(format)
    .toBuffer()
}

/** Left half red, right half blue, and to be turned a quarter clockwise (EXIF orientation 6). */
export function sidewaysPhoto(): Promise<Buffer> {
  const half = (background: string) => ({
    create: { width: 40, height: 40, channels: 3 as const, background },
  })
  return sharp({ create: { width: 80, height: 40, channels: 3, background: 'red' } })
    .composite([{ input: half('blue'), left: 40, top: 0 }])
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer()
}

/** The least that a PDF is made of (ISO 32000-1, annex H.2 shows one like it). */
export function pdf(text = 'Report'): Buffer {
  const body = [
    '%PDF-1.4',
    '1 0 obj << /Type /Catalog /Pages 2 0 R >> endobj',
    `2 0 obj << /Type /Pages /Kids [] /Count 0 /Title (${text}) >> endobj`,
    'trailer << /Root 1 0 R /Size 3 >>',
    '%%EOF',
    '',
  ]
  return Buffer.from(body.join('\n'))
}

/** A PNG of a few bytes that says it is so large (W3C PNG, 5.3 and 11.2.2). */
export function hugePng(width: number, height: number): Buffer {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(width, 0)
  header.writeUInt32BE(height, 4)
  header.set([1, 0, 0, 0, 0], 8)
  return pngOf([
    ['IHDR', header],
    ['IDAT', deflateSync(Buffer.alloc(1024))],
    ['IEND', Buffer.alloc(0)],
  ])
}

/** Adds a chunk behind the header of a PNG. */
export function withChunk(png: Buffer, type: string, data: Buffer): Buffer {
  const afterHeader = 8 + 12 + 13
  return Buffer.concat([png.subarray(0, afterHeader), chunk(type, data), png.subarray(afterHeader)])
}

const PNG_SIGNATURE = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])

function pngOf(chunks: readonly (readonly [string, Buffer])[]): Buffer {
  return Buffer.concat([PNG_SIGNATURE, ...chunks.map(([type, data]) => chunk(type, data))])
}

function chunk(type: string, data: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const around = Buffer.alloc(8)
  around.writeUInt32BE(data.length, 0)
  around.writeUInt32BE(crc32(named), 4)
  return Buffer.concat([around.subarray(0, 4), named, around.subarray(4)])
}

/** W3C PNG, annex D. */
function crc32(bytes: Buffer): number {
  let crc = 0xffffffff
  for (const byte of bytes) {
    crc ^= byte
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1
  }
  return (crc ^ 0xffffffff) >>> 0
}

/** Types of the chunks of a PNG, in order (W3C PNG, 5.3). */
export function pngChunks(png: Buffer): string[] {
  const types: string[] = []
  for (let at = 8; at < png.length; at += 12 + png.readUInt32BE(at)) {
    types.push(png.toString('latin1', at + 4, at + 8))
  }
  return types
}

/** Types of the chunks of a WebP file (RFC 9649, 2.3). */
export function webpChunks(webp: Buffer): string[] {
  const types: string[] = []
  for (let at = 12; at < webp.length; ) {
    types.push(webp.toString('latin1', at, at + 4))
    const size = webp.readUInt32LE(at + 4)
    at += 8 + size + (size % 2)
  }
  return types
}

/** Markers of a JPEG up to its scan, as E0 for APP0 (ITU-T T.81, B.1.1). */
export function jpegMarkers(jpeg: Buffer): string[] {
  const markers: string[] = []
  for (let at = 2; at < jpeg.length; at += 2 + jpeg.readUInt16BE(at + 2)) {
    const marker = jpeg.toString('hex', at + 1, at + 2).toUpperCase()
    markers.push(marker)
    if (marker === 'DA') break
  }
  return markers
}
