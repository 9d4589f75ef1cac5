import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { importsOf } from './imports-of.ts'
import { PROJECT_FOLDER, projectFiles, textOf, typeScriptFiles } from './source-files.ts'

const TOP_LEVEL = [
  '.ci',
  '.gitignore',
  'DEVELOPERS.md',
  'LICENSE',
  'README.md',
  'geodata',
  'package-lock.json',
  'package.json',
  'server',
  'tests',
  'tsconfig.json',
  'web',
]
/** Made by git, npm, the build, the server and the tests; named in .gitignore. */
const MADE = new Set(['.git', 'node_modules', 'dist', 'data', 'artifacts'])

const isText = (path: string) => /\.(md|json|geojson|ts|tsx|mjs|css|html|svg|txt)$/.test(path)

describe('the top level', () => {
  it('holds exactly what the design names', () => {
    const found = readdirSync(PROJECT_FOLDER).filter((name) => !MADE.has(name))
    expect(found.toSorted()).toEqual(TOP_LEVEL.toSorted())
  })

  it('holds nothing made by a tool that git would pick up', () => {
    const ignored = textOf('.gitignore').split('\n')
    for (const name of ['node_modules', 'dist', 'data', 'artifacts']) {
      expect(ignored).toContain(`${name}/`)
    }
  })
})

describe('every file', () => {
  it('speaks of no place on one particular machine', () => {
    // Written in two parts so that this file does not find itself.
    const folders = ['/wo' + 'rk/', '/ho' + 'me/', '/ro' + 'ot/']
    // From the root of a machine, not a folder of the project that is called so.
    const places = new RegExp(`(?<![\\w.])(${folders.join('|')})|\\.\\.${'/sha' + 'red'}`)
    expect(folders.every((folder) => places.test(`cd ${folder}main`))).toBe(true)
    const named = projectFiles()
      .filter((path) => isText(path) || path.startsWith('.ci/'))
      .filter((path) => places.test(textOf(path)))
    expect(named).toEqual([])
  })

  it('is named in kebab-case, but for the names that tools and readers expect', () => {
    const EXPECTED = /(^|\/)(README|DEVELOPERS|LICENSE)(\.md)?$/
    const odd = projectFiles().filter(
      (path) => !EXPECTED.test(path) && !/(^|\/)\.?[a-z0-9]+([._-][a-z0-9]+)*$/.test(path),
    )
    expect(odd).toEqual([])
  })

  it('of code leaves no note of work undone and silences no check', () => {
    const marks = [
      'TO' + 'DO',
      'FIX' + 'ME',
      '@ts-' + 'ignore',
      '@ts-' + 'expect-error',
      'biome-' + 'ignore',
    ]
    const marked = typeScriptFiles().filter((path) =>
      marks.some((mark) => textOf(path).includes(mark)),
    )
    expect(marked).toEqual([])
  })
})

describe('the domain', () => {
  it('imports nothing of Node', () => {
    const domainFiles = typeScriptFiles().filter((path) => path.startsWith('server/domain/'))
    const impure = domainFiles.filter((path) =>
      importsOf(path, textOf(path)).some(({ specifier }) => specifier.startsWith('node:')),
    )
    expect(domainFiles.length).toBeGreaterThan(20)
    expect(impure).toEqual([])
  })

  it('reads no clock and draws no random number', () => {
    const impure = typeScriptFiles()
      .filter((path) => path.startsWith('server/domain/'))
      .filter((path) => /\bMath\.random\(|\bDate\.now\(|\bnew Date\(\)/.test(textOf(path)))
    expect(impure).toEqual([])
  })
})

describe('geodata', () => {
  it('has a source row in its README for every data file, or for all of its folder', () => {
    const readme = textOf('geodata/README.md')
    const rows = [...readme.matchAll(/^\|\s*\[?`?([^`\]|\s]+)/gm)].flatMap(
      (match) => match[1] ?? [],
    )
    const files = projectFiles('geodata')
      .filter((path) => path !== 'geodata/README.md' && !path.endsWith('.ts'))
      .map((path) => path.slice('geodata/'.length))
    const covers = (row: string, path: string) =>
      row === path || row === `${path.slice(0, path.lastIndexOf('/'))}/*`
    expect(files.filter((path) => !rows.some((row) => covers(row, path)))).toEqual([])
    const folders = rows.filter((row) => row.endsWith('/*'))
    expect(folders.filter((row) => !files.some((path) => covers(row, path)))).toEqual([])
  })
})
