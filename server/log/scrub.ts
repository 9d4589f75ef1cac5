/** Stands where something was that a log must not hold. */
export const LEFT_OUT = '[left out]'

const MOST_CHARACTERS = 8000

/** Runs of bounded length only, so that no text makes these slow. */
const PATTERNS: readonly (readonly [RegExp, string])[] = [
  [/\/\/[^\s/@:]{0,200}:[^\s/@]{0,200}@/g, `//${LEFT_OUT}@`],
  [/\bBearer\s{1,5}[\w.~+/=-]{1,2000}/gi, `Bearer ${LEFT_OUT}`],
  [/[\w.%+-]{1,64}@[\w-]{1,63}(?:\.[\w-]{1,63}){1,8}/g, LEFT_OUT],
  [/\b((?:token|code|state|password|secret)=)[^\s&"']{1,2000}/gi, `$1${LEFT_OUT}`],
]

/**
 * Takes out of a text what names a person or opens a door: email addresses, passwords in addresses,
 * bearer tokens, secret members of a query, and the secrets of this server.
 *
 * @param secrets texts that are never written, as passwords from the environment
 */
export function scrub(text: string, secrets: readonly string[] = []): string {
  const short = text.length > MOST_CHARACTERS ? `${text.slice(0, MOST_CHARACTERS)}…` : text
  const known = secrets.reduce((rest, secret) => rest.replaceAll(secret, LEFT_OUT), short)
  return PATTERNS.reduce((rest, [pattern, stands]) => rest.replace(pattern, stands), known)
}
