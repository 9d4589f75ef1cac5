/** Layers of a feeder reach a depth of 12. */
const MOST_DEPTH = 32

const LONE_SURROGATE = /\p{Surrogate}/u

export interface ValueFault {
  readonly path: readonly string[]
  readonly what: string
}

/**
 * What no body may hold, whatever its schema says: nesting that only costs time, characters that a
 * PostgreSQL text cannot keep (NUL) or that are no Unicode (half of a surrogate pair), and a
 * member that would change what an object is.
 */
export function valueFault(value: unknown, path: readonly string[] = []): ValueFault | null {
  if (typeof value === 'string') return textFault(value, path)
  if (typeof value !== 'object' || value === null) return null
  if (path.length >= MOST_DEPTH) return { path, what: `is nested deeper than ${MOST_DEPTH}` }
  return Array.isArray(value) ? listFault(value, path) : memberFault(value, path)
}

function listFault(list: readonly unknown[], path: readonly string[]): ValueFault | null {
  for (const [index, item] of list.entries()) {
    // Coordinates are most of a large body.
    if (typeof item === 'number') continue
    const fault = valueFault(item, [...path, String(index)])
    if (fault) return fault
  }
  return null
}

function memberFault(record: object, path: readonly string[]): ValueFault | null {
  for (const [key, member] of Object.entries(record)) {
    if (key === '__proto__') return { path: [...path, key], what: 'is not known here' }
    const fault = textFault(key, path) ?? valueFault(member, [...path, key])
    if (fault) return fault
  }
  return null
}

function textFault(text: string, path: readonly string[]): ValueFault | null {
  if (text.includes('\0')) return { path, what: 'holds a NUL character' }
  return LONE_SURROGATE.test(text) ? { path, what: 'holds half of a surrogate pair' } : null
}
