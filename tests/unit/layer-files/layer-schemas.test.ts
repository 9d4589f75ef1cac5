import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, it } from 'vitest'
import { layerSchemas, schemaFile } from '../../../server/layer-files/layer-schemas.ts'
import { header, load, pointAt, poles, regulator, smallLayers } from './small-layers.ts'

const GEODATA = fileURLToPath(new URL('../../../geodata', import.meta.url))

async function readJsonFile(path: string): Promise<Record<string, unknown>> {
  return JSON.parse(await readFile(path, 'utf8'))
}

const schemaOf = (fileName: string) =>
  readJsonFile(join(GEODATA, 'schema', schemaFile(fileName.replace(/\.(geo)?json$/, ''))))

/** Messages of an independent validator of JSON Schema, draft 2020-12. */
async function complaints(fileName: string, content: unknown): Promise<string[]> {
  const ajv = new Ajv2020({ strict: false, allErrors: true, validateFormats: false })
  const validate = ajv.compile(await schemaOf(fileName))
  validate(content)
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath} ${message}`)
}

describe('the committed JSON Schemas', () => {
  it('are what the schemas of the domain give (else: npm run schema)', async () => {
    const generated = layerSchemas()
    const files = (await readdir(join(GEODATA, 'schema'))).filter((name) => name.endsWith('.json'))
    expect(files.toSorted()).toEqual(Object.keys(generated).toSorted())
    for (const [name, schema] of Object.entries(generated)) {
      expect(await readJsonFile(join(GEODATA, 'schema', name))).toEqual(
        JSON.parse(JSON.stringify(schema)),
      )
    }
  })

  it('accept every layer of every shipped feeder, as an independent validator judges', async () => {
    const folders = [
      ...(await readdir(join(GEODATA, 'published'))).map((id) => `published/${id}`),
      'demo/skillet',
      'demo/thimble',
    ]
    let judged = 0
    for (const folder of folders) {
      const names = await readdir(join(GEODATA, folder))
      for (const name of names.filter((each) => each !== 'published-results.json')) {
        expect(await complaints(name, await readJsonFile(join(GEODATA, folder, name)))).toEqual([])
        judged++
      }
    }
    expect(judged).toBeGreaterThan(40)
  })

  it('accept a small feeder, and properties in the spelling of the files', async () => {
    for (const [name, content] of Object.entries(smallLayers())) {
      expect(await complaints(name, content)).toEqual([])
    }
  })

  it('refuse what reading refuses', async () => {
    const layers = smallLayers({
      header: header({ nominal_kv: '12.47', nominalKv: 12.47 }),
      poles: [...poles(), { geometry: { type: 'Point', coordinates: [200, 1] }, properties: {} }],
      equipment: [regulator({ pt_ratio: -1 })],
      loads: [{ ...load({ customers: 1.5 }), geometry: pointAt(0) }],
    })
    expect(await complaints('feeder.json', layers['feeder.json'])).toEqual([
      '/nominal_kv must be number',
    ])
    expect(await complaints('poles.geojson', layers['poles.geojson'])).toEqual([
      '/features/3/geometry/coordinates/0 must be <= 180',
      "/features/3/properties must have required property 'id'",
    ])
    expect(await complaints('equipment.geojson', layers['equipment.geojson'])).toContain(
      '/features/0/properties/pt_ratio must be > 0',
    )
    expect(await complaints('loads.geojson', layers['loads.geojson'])).toEqual([
      '/features/0/properties/customers must be integer',
    ])
  })

  it('know how a bank stands, its neutral side and its serial numbers', async () => {
    const said = { state: 'bypassed', neutral_side: 'switched', serial_a: '4417' }
    const judge = (changes: Record<string, unknown>) =>
      complaints(
        'equipment.geojson',
        smallLayers({ equipment: [regulator(changes)] })['equipment.geojson'],
      )
    expect(await judge(said)).toEqual([])
    for (const key of Object.keys(said)) {
      const found = await judge({ ...said, [key]: '' })
      expect(found.some((complaint) => complaint.includes(`/properties/${key} `))).toBe(true)
    }
  })
})
