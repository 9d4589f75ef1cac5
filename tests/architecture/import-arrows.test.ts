import { describe, expect, it } from 'vitest'
import { forbiddenImports } from './forbidden-imports.ts'
import { importsOf } from './imports-of.ts'
import { textOf, typeScriptFiles } from './source-files.ts'

const codeFiles = typeScriptFiles().filter(
  (path) => /^(server|web)\//.test(path) && path !== 'web/vite.config.ts',
)

const judge = (file: string, text: string) => forbiddenImports(file, importsOf(file, text))

describe('import arrows', () => {
  it('point only where the table of rooms allows, in every file', () => {
    expect(codeFiles.length).toBeGreaterThan(20)
    expect(codeFiles.flatMap((file) => judge(file, textOf(file)))).toEqual([])
  })

  it('join a person only to the shared rooms of the web, never to another person', () => {
    const text = "import { Desk } from '../crew/desk.tsx'"
    expect(judge('web/planner/desk.tsx', text)).toHaveLength(1)
    expect(judge('web/planner/desk.tsx', "import { Field } from '../ui/field.tsx'")).toEqual([])
  })
})

const FORBIDDEN: readonly (readonly [what: string, file: string, text: string])[] = [
  [
    'the domain reading what the server answers',
    'server/domain/electrical/sweep.ts',
    "import { routes } from '#contract/routes.ts'",
  ],
  [
    'the domain reading files',
    'server/domain/network/trace.ts',
    "import { readFileSync } from 'node:fs'",
  ],
  [
    'an arrow to the right inside the domain',
    'server/domain/feeder/pole.ts',
    "import { trace } from '#domain/network/trace.ts'",
  ],
  [
    'electrical loading a schema by value',
    'server/domain/electrical/compile.ts',
    "import { Feeder } from '../feeder/feeder.ts'",
  ],
  [
    'a forbidden room behind a dynamic import',
    'server/domain/siting/search.ts',
    "const open = () => import('../../store/sqlite.ts')",
  ],
  [
    'a forbidden room behind a re-export',
    'server/contract/pole.ts',
    "export { openStore } from '../store/sqlite.ts'",
  ],
  [
    'a forbidden room named as a worker file',
    'web/state/study.ts',
    "new Worker(new URL('../../server/store/sqlite.ts', import.meta.url))",
  ],
  [
    'a use case reaching for the database',
    'server/services/proposals.ts',
    "import { openStore } from '../store/sqlite.ts'",
  ],
  ['a plain part of the page asking the server', 'web/ui/button.tsx', "import '../api/client.ts'"],
  [
    'Turf in the power flow',
    'server/domain/electrical/sweep.ts',
    "import { distance } from '@turf/turf'",
  ],
  ['a file outside every room', 'server/helpers/strings.ts', "import 'zod'"],
]

describe('the rule itself', () => {
  it.each(FORBIDDEN)('catches %s', (_what, file, text) => {
    expect(judge(file, text)).toHaveLength(1)
  })

  it('lets types through where only types may pass', () => {
    const file = 'server/domain/electrical/compile.ts'
    expect(judge(file, "import type { Feeder } from '../feeder/feeder.ts'")).toEqual([])
    expect(judge(file, "import { type Feeder } from '../feeder/feeder.ts'")).toEqual([])
    expect(judge(file, "export type { Feeder } from '../feeder/feeder.ts'")).toEqual([])
    expect(judge(file, "import { type Feeder, Span } from '../feeder/feeder.ts'")).toHaveLength(1)
  })

  it('refuses a dynamic import whose target it cannot read', () => {
    expect(() => importsOf('server/main.ts', 'import(name)')).toThrow('plain string')
  })
})
