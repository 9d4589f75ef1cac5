import type { Verdict } from '#domain/jobs/judge-reading.ts'

const MARKS: Readonly<
  Record<Verdict['verdict'], { readonly sign: string; readonly said: string }>
> = {
  good: { sign: '✓', said: 'Good' },
  doubtful: { sign: '?', said: 'Doubtful' },
  bad: { sign: '✕', said: 'Stop' },
}

/** What a reading means, told by sign, word and frame. */
export function VerdictNote({ verdict: { verdict, words } }: { readonly verdict: Verdict }) {
  const { sign, said } = MARKS[verdict]
  return (
    <p className="verdict" data-verdict={verdict} role={verdict === 'bad' ? 'alert' : 'status'}>
      <span className="verdict-sign" aria-hidden="true">
        {sign}
      </span>
      <span>
        <strong>{said}.</strong> {words}
      </span>
    </p>
  )
}
