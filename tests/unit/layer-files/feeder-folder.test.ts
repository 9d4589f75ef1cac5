import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { strToU8, zipSync } from 'fflate'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readFeederFolder, writeFeederFolder } from '../../../server/layer-files/feeder-folder.ts'
import { layersOfFeeder, layerText } from '../../../server/layer-files/layers-of-feeder.ts'
import { collection, regulator, smallLayers } from './small-layers.ts'

const PUBLISHED = fileURLToPath(new URL('../../../geodata/published', import.meta.url))
const DEMO = fileURLToPath(new URL('../../../geodata/demo', import.meta.url))
const FOLDERS = [
  ...(await readdir(PUBLISHED)).map((id) => join(PUBLISHED, id)),
  ...['skillet', 'thimble'].map((id) => join(DEMO, id)),
]

let scratch = ''
beforeAll(async () => {
  scratch = await mkdtemp(join(tmpdir(), 'crossarm-layers-'))
})
afterAll(() => rm(scratch, { recursive: true }))

async function writeTexts(name: string, texts: Record<string, string>): Promise<string> {
  const folder = join(scratch, name)
  await mkdir(folder)
  for (const [file, text] of Object.entries(texts)) await writeFile(join(folder, file), text)
  return folder
}

const smallTexts = () =>
  Object.fromEntries(
    Object.entries(smallLayers()).map(([name, content]) => [
      name,
      JSON.stringify(content, null, 1),
    ]),
  )

describe.each(FOLDERS)('the feeder folder %s', (folder) => {
  it('reads without an error and is the same after writing and reading, plain or zipped', async () => {
    const { feeder, findings } = await readFeederFolder(folder)
    expect(findings.filter(({ severity }) => severity === 'error')).toEqual([])
    if (!feeder) throw new Error('Expected a feeder.')
    const copy = await mkdtemp(join(scratch, 'copy-'))
    await writeFeederFolder(copy, feeder)
    expect((await readFeederFolder(copy)).feeder).toEqual(feeder)
    const entries = Object.entries(layersOfFeeder(feeder)).map(([name, content]) => [
      name,
      strToU8(layerText(content)),
    ])
    const zip = join(copy, 'feeder.zip')
    await writeFile(zip, zipSync(Object.fromEntries(entries)))
    expect((await readFeederFolder(zip)).feeder).toEqual(feeder)
  })
})

describe('a folder on disk', () => {
  it('can be zipped with its folder name inside', async () => {
    const entries = Object.entries(smallTexts()).map(([name, text]) => [
      `small/${name}`,
      strToU8(text),
    ])
    const path = join(scratch, 'small.zip')
    await writeFile(path, zipSync(Object.fromEntries(entries)))
    const { feeder, findings } = await readFeederFolder(path)
    expect(findings).toEqual([])
    expect(feeder?.header.id).toBe('small')
  })

  it('keeps a bank that stands bypassed through a folder and a zip of it', async () => {
    const standing = {
      state: 'bypassed',
      neutral_side: 'switched',
      serial_a: '4417',
      serial_c: '4419',
    }
    const equipment = JSON.stringify(collection([regulator(standing)]))
    const folder = await writeTexts('bypassed', { ...smallTexts(), 'equipment.geojson': equipment })
    const { feeder } = await readFeederFolder(folder)
    if (!feeder) throw new Error('Expected a feeder.')
    const entries = Object.entries(layersOfFeeder(feeder)).map(([name, content]) => [
      name,
      strToU8(layerText(content)),
    ])
    const path = join(scratch, 'bypassed.zip')
    await writeFile(path, zipSync(Object.fromEntries(entries)))
    const again = await readFeederFolder(path)
    expect(again.feeder).toEqual(feeder)
    expect(again.feeder?.equipment[0]).toMatchObject({ state: 'bypassed', serialC: '4419' })
    expect(again.findings.map(({ code }) => code)).toEqual(['bank-bypassed'])
  })

  it('is asked for when nothing stands there', async () => {
    const { feeder, findings } = await readFeederFolder(join(scratch, 'nothing'))
    expect(feeder).toBeNull()
    expect(findings.map(({ code }) => code)).toEqual(['no-such-folder'])
  })

  it('is refused as a zip when the file is none', async () => {
    const path = join(scratch, 'note.zip')
    await writeFile(path, 'not a zip')
    expect((await readFeederFolder(path)).findings.map(({ code }) => code)).toEqual(['bad-zip'])
  })

  it('names the line where a file stops being JSON, and only that', async () => {
    const texts = smallTexts()
    const broken = { ...texts, 'poles.geojson': texts['poles.geojson']!.replace('"P2"', '"P2",') }
    const { feeder, findings } = await readFeederFolder(await writeTexts('broken', broken))
    expect(feeder).toBeNull()
    const line = texts['poles.geojson']!.split('\n').findIndex((text) => text.includes('"P2"')) + 2
    expect(findings).toHaveLength(1)
    expect(findings[0]).toMatchObject({ code: 'bad-json', layer: 'poles' })
    expect(findings[0]!.what).toContain(`at line ${line}, column`)
  })

  it('names a header that is not JSON once', async () => {
    const folder = await writeTexts('no-header', { ...smallTexts(), 'feeder.json': '{' })
    const { feeder, findings } = await readFeederFolder(folder)
    expect(feeder).toBeNull()
    expect(findings.map(({ code }) => code)).toEqual(['bad-json'])
  })

  it('warns of a layer that the format does not have', async () => {
    const folder = await writeTexts('extra', {
      ...smallTexts(),
      'pole.geojson': '{}',
      'notes.txt': '',
    })
    const { feeder, findings } = await readFeederFolder(folder)
    expect(feeder).not.toBeNull()
    expect(findings.map(({ code, what }) => [code, what.split(' ')[0]])).toEqual([
      ['unknown-layer', 'pole.geojson'],
    ])
  })

  it('loses a layer that has become empty when written again', async () => {
    const folder = await writeTexts('emptied', smallTexts())
    const { feeder } = await readFeederFolder(folder)
    if (!feeder) throw new Error('Expected a feeder.')
    await writeFeederFolder(folder, { ...feeder, loads: [] })
    expect(await readdir(folder)).not.toContain('loads.geojson')
  })

  it('holds one feature to a line, so that versions compare line by line', async () => {
    const folder = await writeTexts('lines', smallTexts())
    const { feeder } = await readFeederFolder(folder)
    if (!feeder) throw new Error('Expected a feeder.')
    await writeFeederFolder(folder, feeder)
    const lines = (await readFile(join(folder, 'poles.geojson'), 'utf8')).trimEnd().split('\n')
    expect(lines).toHaveLength(2 + feeder.poles.length)
  })
})
