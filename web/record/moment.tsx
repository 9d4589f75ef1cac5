import { agoInWords, momentInWords } from './moment-in-words.ts'
import { useNow } from './use-now.ts'

/** An instant, exact and as how long ago: "2026-11-25, 14:03 (12 minutes ago)". */
export function Moment({ at }: { readonly at: string }) {
  const ago = agoInWords(at, useNow())
  return (
    <time dateTime={at}>
      {momentInWords(at)}
      {ago && ` (${ago})`}
    </time>
  )
}
