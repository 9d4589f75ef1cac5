import { describe, expect, it } from 'vitest'
import { importsOf } from './imports-of.ts'
import { projectFiles, textOf, typeScriptFiles } from './source-files.ts'

interface PackageFile {
  readonly dependencies: Record<string, string>
  readonly devDependencies: Record<string, string>
  readonly scripts: Record<string, string>
}

const { dependencies, devDependencies, scripts } = JSON.parse(textOf('package.json')) as PackageFile

/** Used without being imported: programs that the commands run, and types that the compiler finds. */
const RUN_BY_NAME = ['@biomejs/biome', 'tsx', 'typescript', 'vitest']
const isTypesOnly = (name: string) => name.startsWith('@types/')

function packageOf(specifier: string): string {
  return specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/')
}

const STYLE_IMPORT = /@import\s+(?:url\()?['"]([^'"]+)/g
const SCRIPT_IMPORT = /\b(?:from|import\()\s*'([^']+)'/g

function specifiersOf(file: string): string[] {
  const text = textOf(file)
  if (/\.tsx?$/.test(file)) {
    return importsOf(file, text).flatMap(({ specifier, target }) =>
      target === null ? [specifier] : [],
    )
  }
  const written = file.endsWith('.css') ? STYLE_IMPORT : SCRIPT_IMPORT
  return [...text.matchAll(written)].flatMap((match) => match[1] ?? [])
}

/** Packages that code, plain scripts and styles import. */
function importedPackages(files: readonly string[]): Set<string> {
  const specifiers = files.flatMap(specifiersOf)
  return new Set(specifiers.filter((name) => !/^(node:|\.)/.test(name)).map(packageOf))
}

const scriptFiles = projectFiles().filter((path) => path.endsWith('.mjs'))
const styleFiles = projectFiles('web').filter((path) => path.endsWith('.css'))
const codeFiles = [...typeScriptFiles(), ...scriptFiles, ...styleFiles]
const isShipped = (path: string) => /^(server|web)\//.test(path) && path !== 'web/vite.config.ts'

describe('packages', () => {
  it('are all used by something', () => {
    const used = importedPackages(codeFiles)
    const idle = Object.keys({ ...dependencies, ...devDependencies }).filter(
      (name) => !used.has(name) && !RUN_BY_NAME.includes(name) && !isTypesOnly(name),
    )
    expect(idle).toEqual([])
  })

  it('that the product imports are dependencies of the product, not of its development', () => {
    const shipped = codeFiles.filter((path) => isShipped(path) && !path.startsWith('server/run/'))
    const typesOf = (name: string) => `@types/${name}` in devDependencies
    const undeclared = [...importedPackages(shipped)].filter(
      (name) => !(name in dependencies) && !typesOf(name),
    )
    expect(undeclared).toEqual([])
  })

  it('stand at one exact version each', () => {
    const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(
      ([, version]) => !/^\d+\.\d+\.\d+$/.test(version),
    )
    expect(loose).toEqual([])
  })

  it('and commands are all described for developers', () => {
    const text = textOf('DEVELOPERS.md')
    const missing = Object.keys(scripts).filter(
      (name) =>
        !text.includes(`npm ${name}`) &&
        !text.includes(`npm run ${name}`) &&
        !text.includes(`npm run -s ${name}`),
    )
    expect(missing).toEqual([])
  })
})
