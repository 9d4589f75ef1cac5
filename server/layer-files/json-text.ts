export type JsonReading =
  | { readonly isValid: true; readonly value: unknown }
  | {
      readonly isValid: false
      /** Place of the first fault, counted from 1. */
      readonly line: number
      readonly column: number
      readonly reason: string
    }

/** Parses strict JSON (RFC 8259); where it fails, says where and what was expected there. */
export function readJson(text: string): JsonReading {
  try {
    return { isValid: true, value: JSON.parse(text) }
  } catch {
    const { offset, expected } = firstFault(text)
    const before = text.slice(0, offset).split('\n')
    const found = offset < text.length ? JSON.stringify(text[offset]) : 'the end of the file'
    return {
      isValid: false,
      line: before.length,
      column: (before.at(-1)?.length ?? 0) + 1,
      reason: `${expected} expected, ${found} found`,
    }
  }
}

type Awaited = 'value' | 'value or ]' | 'key' | 'key or }' | 'colon' | 'comma or end'

const SPACE = /[\t\n\r ]*/y
const PLAIN_CHARACTERS = /[ !#-[\]-\uffff]*/y
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y
const SCALAR = /true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y

const WORDS: Readonly<Record<Awaited, string>> = {
  value: 'a value',
  'value or ]': 'a value or "]"',
  key: 'a property name in double quotes',
  'key or }': 'a property name in double quotes or "}"',
  colon: '":"',
  'comma or end': '"," or a closing bracket',
}

const WHOLE_STRING = 'a whole string (closing quote, no line break, known escapes)'

/** Walks the text until something stands where it may not; the text is known to be faulty. */
function firstFault(text: string): { offset: number; expected: string } {
  const open: ('{' | '[')[] = []
  let awaited: Awaited = 'value'
  let offset = 0
  const skip = (pattern: RegExp): boolean => advance(lengthAt(text, offset, pattern))
  const advance = (length: number): boolean => {
    offset += length
    return length > 0
  }
  for (;;) {
    skip(SPACE)
    const next = step(text[offset], awaited, open)
    if (next === 'end') return { offset, expected: 'nothing more' }
    if (next === 'token') {
      const isKey: boolean = awaited === 'key' || awaited === 'key or }'
      if (!advance(stringLength(text, offset)) && (isKey || !skip(SCALAR))) {
        return { offset, expected: text[offset] === '"' ? WHOLE_STRING : WORDS[awaited] }
      }
      awaited = isKey ? 'colon' : 'comma or end'
    } else if (next === 'fault') {
      return { offset, expected: WORDS[awaited] }
    } else {
      offset++
      awaited = next
    }
  }
}

function lengthAt(text: string, offset: number, pattern: RegExp): number {
  pattern.lastIndex = offset
  return pattern.exec(text)?.[0].length ?? 0
}

/**
 * Length of the string that begins at the offset with its quotes; 0 where none is whole. Run by
 * run: one pattern for all of it would take a place on the stack for each character.
 */
function stringLength(text: string, offset: number): number {
  if (text[offset] !== '"') return 0
  let end = offset + 1
  for (;;) {
    end += lengthAt(text, end, PLAIN_CHARACTERS)
    if (text[end] === '"') return end + 1 - offset
    const escaped = lengthAt(text, end, ESCAPE)
    if (escaped === 0) return 0
    end += escaped
  }
}

/** What follows a punctuation mark, if it may stand here; `open` is kept up to date. */
function step(
  character: string | undefined,
  awaited: Awaited,
  open: ('{' | '[')[],
): Awaited | 'token' | 'fault' | 'end' {
  const inside = open.at(-1)
  if (awaited === 'colon') return character === ':' ? 'value' : 'fault'
  if (awaited === 'comma or end') {
    if (inside === undefined) return 'end'
    if (character === ',') return inside === '{' ? 'key' : 'value'
    if (character !== (inside === '{' ? '}' : ']')) return 'fault'
    open.pop()
    return 'comma or end'
  }
  const closes =
    (awaited === 'value or ]' && character === ']') || (awaited === 'key or }' && character === '}')
  if (closes) {
    open.pop()
    return 'comma or end'
  }
  if (awaited === 'key' || awaited === 'key or }') return 'token'
  if (character === '{' || character === '[') {
    open.push(character)
    return character === '{' ? 'key or }' : 'value or ]'
  }
  return 'token'
}
