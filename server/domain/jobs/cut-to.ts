/** A text within a length, with a sign where something was left off: names in a record may be long. */
export function cutTo(mostLetters: number, text: string): string {
  return text.length <= mostLetters ? text : `${text.slice(0, mostLetters - 1).trimEnd()}…`
}
