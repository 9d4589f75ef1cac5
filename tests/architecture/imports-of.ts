import { posix } from 'node:path'
import { parseSync } from 'oxc-parser'

export interface Import {
  /** As written in the file. */
  readonly specifier: string
  /** Path from the project folder, or null for a package or a built-in module. */
  readonly target: string | null
  /** True when the import leaves nothing behind once types are stripped. */
  readonly isTypeOnly: boolean
  readonly line: number
}

const ALIASES: readonly (readonly [string, string])[] = [
  ['#domain/', 'server/domain/'],
  ['#contract/', 'server/contract/'],
]

function targetOf(file: string, specifier: string): string | null {
  const path = specifier.replace(/\?.*$/, '')
  if (path.startsWith('.')) return posix.join(posix.dirname(file), path)
  const alias = ALIASES.find(([prefix]) => path.startsWith(prefix))
  return alias ? alias[1] + path.slice(alias[0].length) : null
}

function unquoted(text: string): string {
  return /^(['"`])(.*)\1$/s.exec(text)?.[2] ?? text
}

/**
 * Static, re-export and dynamic imports of one file, and modules that it names in
 * `new URL('./x.ts', import.meta.url)`, which is how a worker is started.
 * Throws when the file cannot be parsed or a dynamic import is not a plain string.
 */
export function importsOf(file: string, text: string): Import[] {
  const { module, errors } = parseSync(file, text)
  if (errors.length > 0) throw new Error(`${file} cannot be parsed: ${errors[0]?.message}`)
  const found: Import[] = []
  const add = (specifier: string, start: number, isTypeOnly: boolean) => {
    const line = text.slice(0, start).split('\n').length
    found.push({ specifier, target: targetOf(file, specifier), isTypeOnly, line })
  }
  for (const { moduleRequest, entries, start } of module.staticImports) {
    add(moduleRequest.value, start, entries.length > 0 && entries.every((entry) => entry.isType))
  }
  for (const { entries } of module.staticExports) {
    for (const { moduleRequest, isType, start } of entries) {
      if (moduleRequest) add(moduleRequest.value, start, isType)
    }
  }
  for (const { moduleRequest, start } of module.dynamicImports) {
    const written = text.slice(moduleRequest.start, moduleRequest.end)
    if (!/^(['"`]).*\1$/s.test(written) || written.includes('${')) {
      throw new Error(`${file} imports ${written}: a dynamic import must be a plain string.`)
    }
    add(unquoted(written), start, false)
  }
  for (const match of text.matchAll(
    /new URL\(\s*(['"])(\.[^'"]*\.tsx?)\1\s*,\s*import\.meta\.url/g,
  )) {
    if (match[2]) add(match[2], match.index, false)
  }
  return found
}
