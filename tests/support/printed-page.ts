import { execFile } from 'node:child_process'
import { mkdtemp, readFile, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { promisify } from 'node:util'
import type { Page } from 'playwright-core'
import decodeQR from 'qr/decode.js'
import sharp from 'sharp'

const run = promisify(execFile)
/** Fine enough for a code of 34 mm. */
const DOTS_PER_INCH = 200

export interface PrintedPage {
  /** In the order in which it was written, cell by cell, with single blanks. */
  readonly text: string
  /** What its codes say; null where none can be read in that region. */
  readonly codeIn: (region: Region) => Promise<string | null>
}

/** Part of a page, from 0 to 1 of its width and height. */
export interface Region {
  readonly left: number
  readonly top: number
  readonly width: number
  readonly height: number
}

export interface Printed {
  readonly pages: readonly PrintedPage[]
  /** "612 x 792 pts (letter)". */
  readonly size: string
  readonly remove: () => Promise<void>
}

/**
 * Prints what is open as Chromium does and reads it back by poppler, which is not ours.
 * The page itself says which paper it is laid out for.
 */
export async function printed(page: Page): Promise<Printed> {
  const folder = await mkdtemp(join(tmpdir(), 'printed-'))
  const file = join(folder, 'printed.pdf')
  await page.pdf({ path: file, preferCSSPageSize: true, printBackground: false })
  const [{ stdout: text }, { stdout: info }] = await Promise.all([
    run('pdftotext', ['-raw', '-enc', 'UTF-8', file, '-'], { maxBuffer: 1 << 26 }),
    run('pdfinfo', [file]),
  ])
  const texts = text.split('\f').slice(0, -1)
  return {
    pages: texts.map((one, index) => ({
      text: one.replaceAll(/\s+/g, ' '),
      codeIn: async (region) => codeIn(await pictureOf(file, folder, index + 1), region),
    })),
    size: /^Page size: +(.*)$/m.exec(info)?.[1] ?? '',
    remove: () => rm(folder, { recursive: true, force: true }),
  }
}

async function pictureOf(file: string, folder: string, number: number): Promise<Buffer> {
  const root = join(folder, `page-${number}`)
  const only = ['-f', String(number), '-l', String(number), '-singlefile']
  await run('pdftoppm', ['-r', String(DOTS_PER_INCH), '-png', ...only, file, root])
  return readFile(`${root}.png`)
}

async function codeIn(picture: Buffer, region: Region): Promise<string | null> {
  const { width = 0, height = 0 } = await sharp(picture).metadata()
  const { data, info } = await sharp(picture)
    .extract({
      left: Math.floor(region.left * width),
      top: Math.floor(region.top * height),
      width: Math.floor(region.width * width),
      height: Math.floor(region.height * height),
    })
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true })
  try {
    return decodeQR(
      { width: info.width, height: info.height, data: new Uint8Array(data) },
      { effort: Number.POSITIVE_INFINITY, timeLimit: Number.POSITIVE_INFINITY },
    )
  } catch {
    return null
  }
}
