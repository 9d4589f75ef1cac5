import type { Standing } from './fold-field-job.ts'

const MARKS: Readonly<Record<Standing, { readonly sign: string; readonly words: string }>> = {
  kept: { sign: '●', words: 'with the server' },
  waiting: { sign: '○', words: 'waiting on this device' },
  sending: { sign: '◐', words: 'being sent' },
  refused: { sign: '✕', words: 'refused' },
  conflict: { sign: '≠', words: 'somebody else changed it, too' },
}

/** Where something that was entered is, by sign and word. */
export function StandingMark({ standing }: { readonly standing: Standing }) {
  const { sign, words } = MARKS[standing]
  return (
    <span className="standing" data-standing={standing}>
      <span aria-hidden="true">{sign}</span> {words}
    </span>
  )
}
