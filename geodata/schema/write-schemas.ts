import { writeFile } from 'node:fs/promises'
import { fileURLToPath } from 'node:url'
import { layerSchemas } from '../../server/layer-files/layer-schemas.ts'

const folder = new URL('.', import.meta.url)
for (const [name, schema] of Object.entries(layerSchemas())) {
  await writeFile(fileURLToPath(new URL(name, folder)), `${JSON.stringify(schema, null, 2)}\n`)
}
