import { expect, it } from 'vitest'
import { readLayers } from '../../../web/planner/read-layers.ts'

const file = (name: string, text: string) => new File([text], name)

it('reads JSON files by their names and leaves others alone', async () => {
  const { layers, faults } = await readLayers([
    file('feeder.json', '{"id":"a"}'),
    file('poles.geojson', '{"features":[]}'),
    file('notes.txt', 'not a layer'),
  ])
  expect(layers).toEqual({ 'feeder.json': { id: 'a' }, 'poles.geojson': { features: [] } })
  expect(faults).toEqual([])
})

it('names the file that is not JSON', async () => {
  const { faults } = await readLayers([file('poles.geojson', '{"features":')])
  expect(faults).toHaveLength(1)
  expect(faults[0]).toContain('poles.geojson is not JSON')
})

it('says that the heart of the folder is missing', async () => {
  const { faults } = await readLayers([file('poles.geojson', '{}')])
  expect(faults[0]).toContain('feeder.json is missing')
})
