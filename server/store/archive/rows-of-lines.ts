import { createReadStream } from 'node:fs'
import type { Row } from './table-form.ts'

/**
 * Rows of a file of JSON lines. Only a line feed ends a line: the other characters that may end one
 * stand in texts as they are.
 */
export async function* rowsOfLines(file: string): AsyncGenerator<Row> {
  let begun: string[] = []
  for await (const chunk of createReadStream(file, { encoding: 'utf8' })) {
    const [first = '', ...rest] = String(chunk).split('\n')
    begun.push(first)
    for (const next of rest) {
      yield JSON.parse(begun.join('')) as Row
      begun = [next]
    }
  }
  if (begun.join('') !== '') throw new Error(`The last line of ${file} has no end.`)
}
