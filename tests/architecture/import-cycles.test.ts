import { expect, it } from 'vitest'
import { importCycles } from './import-cycles.ts'
import { importsOf } from './imports-of.ts'
import { textOf, typeScriptFiles } from './source-files.ts'

function valueImports(file: string): string[] {
  return importsOf(file, textOf(file)).flatMap(({ target, isTypeOnly }) =>
    target && !isTypeOnly ? [target] : [],
  )
}

it('no file imports itself by way of others', () => {
  const graph = new Map(typeScriptFiles().map((file) => [file, valueImports(file)]))
  expect(importCycles(graph)).toEqual([])
})

it('a ring of three files is found, and a file that imports itself', () => {
  const ring = { 'a.ts': ['b.ts'], 'b.ts': ['c.ts'], 'c.ts': ['a.ts', 'd.ts'], 'd.ts': ['d.ts'] }
  const cycles = importCycles(new Map(Object.entries(ring)))
  expect(cycles.map((cycle) => cycle.toSorted())).toEqual([['d.ts'], ['a.ts', 'b.ts', 'c.ts']])
})
