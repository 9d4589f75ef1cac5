import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const PROJECT_FOLDER = fileURLToPath(new URL('../..', import.meta.url))

const LEFT_OUT = new Set(['node_modules', 'dist', 'data', 'artifacts', '.git'])

/** Every file of the project below `folder`, as paths from the project folder with forward slashes. */
export function projectFiles(folder = ''): string[] {
  return readdirSync(join(PROJECT_FOLDER, folder), { withFileTypes: true }).flatMap((entry) => {
    if (LEFT_OUT.has(entry.name)) return []
    const path = folder === '' ? entry.name : `${folder}/${entry.name}`
    return entry.isDirectory() ? projectFiles(path) : [path]
  })
}

export function typeScriptFiles(): string[] {
  return projectFiles().filter((path) => /\.tsx?$/.test(path))
}

export function textOf(path: string): string {
  return readFileSync(join(PROJECT_FOLDER, path), 'utf8')
}
