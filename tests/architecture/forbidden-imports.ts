import type { Import } from './imports-of.ts'
import { JOINING_FILES, ROOMS, type Room } from './rooms.ts'

const ALL_ROOMS = [...ROOMS, ...JOINING_FILES]

/** The room of a file: a joining file by its own name, else the longest folder that holds it. */
export function roomOf(file: string): Room | null {
  const holding = ALL_ROOMS.filter(
    ({ folder }) => file === folder || file.startsWith(`${folder}/`),
  ).sort((a, b) => b.folder.length - a.folder.length)
  return holding[0] ?? null
}

function isPackageAllowed(specifier: string, allowed: readonly string[]): boolean {
  return allowed.some((pattern) => {
    if (pattern === '*') return !specifier.startsWith('node:')
    if (pattern.endsWith('*')) return specifier.startsWith(pattern.slice(0, -1))
    return specifier === pattern || specifier.startsWith(`${pattern}/`)
  })
}

function isRoomAllowed(from: Room, to: Room, isTypeOnly: boolean): boolean {
  if (from === to || from.rooms.includes(to.folder)) return true
  return isTypeOnly && (from.typesOf?.includes(to.folder) ?? false)
}

/** One sentence for each import of the file that the table of rooms does not allow. */
export function forbiddenImports(file: string, imports: readonly Import[]): string[] {
  const from = roomOf(file)
  if (!from) return [`${file} is in no room of the table`]
  return imports.flatMap(({ specifier, target, isTypeOnly, line }) => {
    const where = `${file}:${line} imports ${specifier}`
    if (target === null) {
      return isPackageAllowed(specifier, from.packages) ? [] : [`${where}: not for ${from.folder}`]
    }
    const to = roomOf(target)
    if (!to) return [`${where}, which is in no room of the table`]
    if (isRoomAllowed(from, to, isTypeOnly)) return []
    const only = from.typesOf?.includes(to.folder) ? ' (only `import type` is allowed)' : ''
    return [`${where}: ${from.folder} may not import ${to.folder}${only}`]
  })
}
