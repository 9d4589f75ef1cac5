/**
 * Key of a property as it stands in a file: snake_case of the key in code. Phase names and
 * pairs (A, BC) are names of the trade and stay as they are.
 */
export function fileKey(codeKey: string): string {
  if (/^[A-Z]+$/.test(codeKey)) return codeKey
  return codeKey.replace(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)
}
