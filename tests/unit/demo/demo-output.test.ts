import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { demoFiles } from '../../../geodata/demo/generate/demo-files.ts'

const FOLDER = fileURLToPath(new URL('../../../geodata/demo', import.meta.url))
const MOST_BYTES = 6_000_000

function committedFiles(): string[] {
  return readdirSync(FOLDER, { recursive: true, encoding: 'utf8' })
    .map((name) => relative(FOLDER, join(FOLDER, name)))
    .filter((name) => !name.startsWith('generate') && statSync(join(FOLDER, name)).isFile())
    .sort()
}

describe('the files of the demo', () => {
  const made = demoFiles()

  it('are exactly the files that the generator makes', () => {
    expect(committedFiles()).toEqual([...made.keys()].sort())
  })

  it('hold byte for byte what the generator makes again', () => {
    const different = [...made].filter(
      ([name, text]) => readFileSync(join(FOLDER, name), 'utf8') !== text,
    )
    expect(different.map(([name]) => name)).toEqual([])
  })

  it('stay small enough to be cloned and loaded with ease', () => {
    const bytes = [...made.values()].reduce((sum, text) => sum + Buffer.byteLength(text), 0)
    expect(bytes).toBeLessThan(MOST_BYTES)
  })
})
