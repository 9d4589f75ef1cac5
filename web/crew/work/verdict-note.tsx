import type { Verdict } from '#domain/jobs/judge-reading.ts'

interface Props {
  readonly verdict: Pick<Verdict, 'verdict' | 'words' | 'more'>
}

const MARKS: Readonly<
  Record<Verdict['verdict'], { readonly sign: string; readonly said: string }>
> = {
  good: { sign: '✓', said: 'Good' },
  doubtful: { sign: '?', said: 'Doubtful' },
  bad: { sign: '✕', said: 'Stop' },
}

/**
 * What a reading means, told by sign, word and frame; the rest folded, so that the next field stays
 * in view. Where the work stops, what to do stands open.
 */
export function VerdictNote({ verdict: { verdict, words, more = [] } }: Props) {
  const { sign, said } = MARKS[verdict]
  return (
    <div className="verdict" data-verdict={verdict}>
      <span className="verdict-sign" aria-hidden="true">
        {sign}
      </span>
      <div className="verdict-words">
        <p role={verdict === 'bad' ? 'alert' : 'status'}>
          <strong>{said}.</strong> {words}
        </p>
        {more.length > 0 && (
          <details className="work-fold" open={verdict === 'bad'}>
            <summary>
              {verdict === 'good' ? 'Where the figure is from' : 'What it could be, and what to do'}
            </summary>
            <ul>
              {more.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </details>
        )}
      </div>
    </div>
  )
}
