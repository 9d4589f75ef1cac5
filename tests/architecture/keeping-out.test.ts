import { parseSync } from 'oxc-parser'
import { describe, expect, it } from 'vitest'
import { textOf, typeScriptFiles } from './source-files.ts'

const serverFiles = typeScriptFiles().filter((path) => path.startsWith('server/'))
const webFiles = typeScriptFiles().filter((path) => path.startsWith('web/'))

interface Place {
  readonly file: string
  readonly line: string
}

function placesOf(files: readonly string[], pattern: RegExp): Place[] {
  return files.flatMap((file) =>
    textOf(file)
      .split('\n')
      .filter((line) => pattern.test(line))
      .map((line) => ({ file, line: line.trim() })),
  )
}

/** Files that write a statement as text, each with the reason why no input gets into it. */
const RAW_STATEMENTS: Readonly<Record<string, string>> = {
  'server/store/archive/load-tables.ts': 'names and order come from the table of tables',
  'server/store/sqlite.ts': 'settings and transaction words of the driver, constants of the file',
}

describe('the server', () => {
  it('asks nothing of an address that a person could name', () => {
    const CALLS = /\bfetch\(|\bhttps?\.(request|get)\(|from 'node:(https|http2|dgram|tls)'/
    expect(CALLS.test('await fetch(body.url)')).toBe(true)
    // The utility's own sign-on is asked by its library, at the address that the environment gives.
    expect(placesOf(serverFiles, CALLS)).toEqual([])
  })

  it('runs no other program and evaluates no text', () => {
    const CALLS = /node:child_process|\beval\(|new Function\(|node:vm/
    expect(CALLS.test("import { spawn } from 'node:child_process'")).toBe(true)
    expect(placesOf(serverFiles, CALLS)).toEqual([])
  })

  it('gives values to the database as parameters, never as text of a statement', () => {
    // sql.ref and sql.table quote a name; these would not quote anything.
    const RAW = /\b(?:sql\.(?:raw|lit)|CompiledQuery\.raw)\((.*)/
    const asText = ({ line }: Place) =>
      !/^(?:'[^']*'|[A-Z][A-Z_]+)\)/.test(RAW.exec(line)?.[1] ?? '')
    expect(RAW.test('sql.raw(name)') && asText({ file: '', line: 'sql.raw(name)' })).toBe(true)
    const outside = serverFiles.filter((file) => !file.startsWith('server/store/migrations/'))
    const files = new Set(
      placesOf(outside, RAW)
        .filter(asText)
        .map(({ file }) => file),
    )
    expect([...files].filter((file) => !(file in RAW_STATEMENTS))).toEqual([])
    expect(Object.keys(RAW_STATEMENTS).filter((file) => !files.has(file))).toEqual([])
  })

  it('sends nobody on to another address', () => {
    const SENT_ON = /\.redirect\(|['"]location['"]/i
    expect(SENT_ON.test('context.redirect(query.to)')).toBe(true)
    expect(placesOf(serverFiles, SENT_ON)).toEqual([])
  })
})

describe('the pages', () => {
  it('put no text of the record into markup', () => {
    const MARKUP =
      /dangerouslySetInnerHTML|\.innerHTML|\.outerHTML|insertAdjacentHTML|document\.write|setHTML\(|createContextualFragment/
    expect(MARKUP.test('element.innerHTML = name')).toBe(true)
    expect(placesOf(webFiles, MARKUP)).toEqual([])
  })

  it('make no link of a text of the record that could run', () => {
    const LINKS =
      /href=\{(?!`|addressOf|fileAddress)|window\.open\(|location\.(href|assign|replace)\b.*=/
    const found = placesOf(webFiles, LINKS).map(({ file, line }) => `${file}: ${line}`)
    expect(found).toEqual([])
  })
})

interface Pattern {
  readonly file: string
  readonly source: string
  readonly flags: string
}

/** Every regular expression written in a file. */
function patternsOf(file: string): Pattern[] {
  const found: Pattern[] = []
  const visit = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return
    if ('regex' in node) {
      const { pattern, flags } = node.regex as { pattern: string; flags: string }
      found.push({ file, source: pattern, flags })
    }
    for (const part of Object.values(node)) visit(part)
  }
  visit(parseSync(file, textOf(file)).program)
  return found
}

describe('patterns that input meets', () => {
  const patterns = serverFiles.flatMap(patternsOf)
  const LENGTH = 100_000
  const RUNS = 'a 0 A _ . - / " \\ @ : [ ( % { é a. 0- a@ // a:'.split(' ')
  const texts = [...RUNS, ' ', '\n', ' (', 'a ', 'token=', 'Bearer '].map((run) =>
    run.repeat(LENGTH / run.length),
  )

  // One that backtracks over the whole text for each of its characters would take hours over all.
  it('are through with long runs of the same in one pass', () => {
    for (const { source, flags } of patterns) {
      for (const text of texts) {
        const pattern = new RegExp(source, flags.replace('y', ''))
        if (pattern.global) expect(() => text.replace(pattern, '')).not.toThrow()
        else expect(() => pattern.exec(`${text}\u0001`)).not.toThrow()
      }
    }
    expect(patterns.length).toBeGreaterThan(30)
  })
})
