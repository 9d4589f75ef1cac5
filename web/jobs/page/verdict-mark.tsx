import type { Verdict } from '#domain/jobs/judge-reading.ts'

const SHAPES: Readonly<Record<Verdict['verdict'], string>> = {
  good: 'M4 12.5 9.5 18 20 6.5',
  doubtful: 'M12 3 22 20.5H2ZM12 10V14M12 17V17.5',
  bad: 'M5 5 19 19M19 5 5 19',
}

/** What a reading is worth, as a shape and a word. */
export function VerdictMark({ verdict: { verdict, words } }: { readonly verdict: Verdict }) {
  return (
    <span className={`job-verdict job-verdict-${verdict}`}>
      <svg className="job-shape" viewBox="0 0 24 24" width="14" height="14" aria-hidden="true">
        <path d={SHAPES[verdict]} />
      </svg>
      <span>
        <strong>{verdict}</strong>
        {words && `: ${words}`}
      </span>
    </span>
  )
}
