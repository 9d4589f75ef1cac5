import { Unzip, type UnzipFile, UnzipInflate } from 'fflate'

/** Bounds on a zip: far above any feeder, far below what harms the machine. */
export interface ZipLimits {
  /** Of all that is unfolded, counted as it comes out, whatever the zip says of itself. */
  readonly unfoldedBytes: number
  readonly entries: number
  /** Unfolded to folded bytes; layers of a feeder reach about 25. */
  readonly ratio: number
}

export const ZIP_LIMITS: ZipLimits = {
  unfoldedBytes: 512 * 1024 * 1024,
  entries: 1000,
  ratio: 200,
}

/** Small enough that what one of them unfolds to, at most 1032 times as much, does no harm. */
const SLICE_BYTES = 16 * 1024

/** Below that, a ratio says nothing: a short layer of blanks folds well. */
const RATIO_FROM_BYTES = 4 * 1024 * 1024

export interface UnzippedLayers {
  /** Base names of all files in the order of the zip. */
  readonly names: readonly string[]
  /** Text of those that were wanted, by base name. */
  readonly texts: ReadonlyMap<string, string>
}

/**
 * Unfolds the files of a zip whose base name is wanted, in memory; nothing is written under a name
 * that the zip gives.
 *
 * @throws Error with the reason as half a sentence
 */
export function unzipLayers(
  bytes: Uint8Array,
  isWanted: (baseName: string) => boolean,
  limits = ZIP_LIMITS,
): UnzippedLayers {
  if (!isZip(bytes)) throw new Error('it does not begin as a zip does')
  const names: string[] = []
  const parts = new Map<string, Uint8Array[]>()
  let foldedBytes = 0
  let unfoldedBytes = 0

  const count = (more: number) => {
    unfoldedBytes += more
    if (unfoldedBytes > limits.unfoldedBytes) throw new Error(tooMuch(limits))
    if (unfoldedBytes > RATIO_FROM_BYTES && unfoldedBytes > limits.ratio * foldedBytes) {
      throw new Error(`it unfolds to more than ${limits.ratio} times its size`)
    }
  }
  const take = (file: UnzipFile) => {
    const name = baseName(file.name)
    names.push(name)
    if (names.length > limits.entries) throw new Error(`it holds more than ${limits.entries} files`)
    if (!isWanted(name)) return
    if (parts.has(name)) throw new Error(`${name} stands in it twice`)
    const own: Uint8Array[] = []
    parts.set(name, own)
    file.ondata = (error, part) => {
      if (error) throw error
      count(part.length)
      own.push(part)
    }
    file.start()
  }

  const unzip = new Unzip(take)
  unzip.register(UnzipInflate)
  for (let at = 0; at < bytes.length; at += SLICE_BYTES) {
    const slice = bytes.subarray(at, at + SLICE_BYTES)
    foldedBytes += slice.length
    unzip.push(slice, at + SLICE_BYTES >= bytes.length)
  }
  const texts = [...parts].map(([name, own]) => [name, textOf(own)] as const)
  return { names, texts: new Map(texts) }
}

/** @throws Error where the name points out of the zip */
function baseName(name: string): string {
  const steps = name.split('/')
  if (name.startsWith('/') || name.includes('\\') || steps.includes('..')) {
    throw new Error(`it names a file outside of itself, "${name.slice(0, 100)}"`)
  }
  return steps.at(-1) ?? ''
}

function tooMuch({ unfoldedBytes }: ZipLimits): string {
  return `it unfolds to more than ${unfoldedBytes / 1024 / 1024} MB`
}

/** A local file header or, where the zip is empty, the end of its directory (APPNOTE 4.3.7, 4.3.16). */
function isZip([p, k, third]: Uint8Array): boolean {
  return p === 0x50 && k === 0x4b && (third === 0x03 || third === 0x05)
}

function textOf(parts: readonly Uint8Array[]): string {
  const decoder = new TextDecoder()
  return parts.map((part) => decoder.decode(part, { stream: true })).join('') + decoder.decode()
}
