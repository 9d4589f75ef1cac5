import { type ParseError, parse, printParseErrorCode } from 'jsonc-parser'

export type JsonReading =
  | { readonly isValid: true; readonly value: unknown }
  | {
      readonly isValid: false
      readonly line: number
      readonly column: number
      readonly reason: string
    }

/** Parses strict JSON (RFC 8259); where it fails, says the line and the column, counted from 1. */
export function readJson(text: string): JsonReading {
  try {
    return { isValid: true, value: JSON.parse(text) }
  } catch {
    return placeOfError(text)
  }
}

function placeOfError(text: string): JsonReading {
  const errors: ParseError[] = []
  parse(text, errors, { allowTrailingComma: false, disallowComments: true })
  const [first] = errors
  const before = text.slice(0, first?.offset ?? text.length).split('\n')
  return {
    isValid: false,
    line: before.length,
    column: (before.at(-1)?.length ?? 0) + 1,
    reason: first ? spaced(printParseErrorCode(first.error)) : 'not valid JSON',
  }
}

/** "CommaExpected" as "comma expected". */
function spaced(name: string): string {
  return name.replace(/(?<!^)[A-Z]/g, ' $&').toLowerCase()
}
