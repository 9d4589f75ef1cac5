import { mkdir, rm, writeFile } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { demoFiles } from './demo-files.ts'

const DEMO_FOLDER = fileURLToPath(new URL('..', import.meta.url))

const files = demoFiles()
for (const folder of new Set([...files.keys()].map(dirname))) {
  await rm(join(DEMO_FOLDER, folder), { recursive: true, force: true })
  await mkdir(join(DEMO_FOLDER, folder), { recursive: true })
}
for (const [path, text] of files) await writeFile(join(DEMO_FOLDER, path), text)
const totalKb = [...files.values()].reduce((sum, text) => sum + text.length, 0) / 1024
process.stdout.write(`${files.size} files, ${Math.round(totalKb)} kB in geodata/demo\n`)
