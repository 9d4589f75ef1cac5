import { strToU8, zipSync } from 'fflate'
import { describe, expect, it } from 'vitest'
import { unzipLayers, ZIP_LIMITS } from '../../../server/layer-files/unzip-layers.ts'

const all = () => true
const MEGABYTE = 1024 * 1024

/** Makes a zip say another unfolded size of its only file, in both places where it says one. */
function lyingAboutSize(zip: Uint8Array, size: number): Uint8Array {
  const copy = zip.slice()
  const view = new DataView(copy.buffer)
  view.setUint32(22, size, true)
  const directory = view.getUint32(copy.length - 6, true)
  view.setUint32(directory + 24, size, true)
  return copy
}

describe('a zip', () => {
  it('gives the wanted files by their base names, folded or not', () => {
    const zip = zipSync({
      'north/poles.geojson': [strToU8('{"a":"é"}'), { level: 9 }],
      'north/spans.geojson': [strToU8('{}'), { level: 0 }],
      'north/photo.jpg': strToU8('none'),
    })
    const { names, texts } = unzipLayers(zip, (name) => name.endsWith('.geojson'))
    expect(names).toEqual(['poles.geojson', 'spans.geojson', 'photo.jpg'])
    expect([...texts]).toEqual([
      ['poles.geojson', '{"a":"é"}'],
      ['spans.geojson', '{}'],
    ])
  })

  it('that unfolds to a thousand times its size is refused', () => {
    const zip = zipSync({ 'poles.geojson': new Uint8Array(16 * MEGABYTE) })
    expect(zip.length).toBeLessThan(MEGABYTE / 40)
    expect(() => unzipLayers(zip, all)).toThrow(/more than 200 times its size/)
  })

  it('that says it is small and is not is refused just the same', () => {
    const bomb = zipSync({ 'poles.geojson': new Uint8Array(16 * MEGABYTE) })
    expect(() => unzipLayers(lyingAboutSize(bomb, 1000), all)).toThrow(/times its size/)
  })

  it('that unfolds to more than the limit in all is refused, though each file is small', () => {
    const files = Array.from({ length: 20 }, (_, index) => [
      `${index}.geojson`,
      Uint8Array.from({ length: 64 * 1024 }, (_each, at) => (at * 7919 * (index + 1)) % 251),
    ])
    const zip = zipSync(Object.fromEntries(files), { level: 0 })
    const limits = { ...ZIP_LIMITS, unfoldedBytes: MEGABYTE }
    expect(() => unzipLayers(zip, all, limits)).toThrow(/more than 1 MB/)
  })

  it('with thousands of files is refused', () => {
    const files = Array.from({ length: 1001 }, (_, index) => [`${index}.txt`, strToU8('x')])
    const zip = zipSync(Object.fromEntries(files))
    expect(() => unzipLayers(zip, () => false)).toThrow(/more than 1000 files/)
  })

  it.each(['../poles.geojson', '/etc/poles.geojson', 'a/../../poles.geojson', 'a\\poles.geojson'])(
    'that names %s is refused',
    (name) => {
      const zip = zipSync({ [name]: strToU8('{}') })
      expect(() => unzipLayers(zip, all)).toThrow(/outside of itself/)
    },
  )

  it('with one layer twice is refused', () => {
    const zip = zipSync({ 'a/poles.geojson': strToU8('{}'), 'b/poles.geojson': strToU8('{}') })
    expect(() => unzipLayers(zip, all)).toThrow('poles.geojson stands in it twice')
  })

  it('that was cut off is refused', () => {
    const noise = Uint8Array.from({ length: 100_000 }, (_, at) => (at * at * 31) % 253)
    const zip = zipSync({ 'poles.geojson': noise })
    expect(() => unzipLayers(zip.subarray(0, zip.length / 2), all)).toThrow()
  })
})
