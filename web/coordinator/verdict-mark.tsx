import type { PairVerdict, PoleVerdict } from '#domain/avian/separation.ts'

type Verdict = PoleVerdict | PairVerdict

const NAMES: Readonly<Record<Verdict, string>> = {
  bridgeable: 'An eagle can bridge it',
  short: 'Short of guidance',
  unknown: 'Not settled by what is recorded',
  sufficient: 'Reaches guidance',
  absent: 'No such pair here',
}

/** Shape and colour say the same: a filled triangle asks for work, a hollow square for measuring. */
export function VerdictMark({ verdict }: { readonly verdict: Verdict }) {
  return (
    <svg
      className={`verdict verdict-${verdict}`}
      viewBox="0 0 24 24"
      width="20"
      height="20"
      role="img"
      aria-label={NAMES[verdict]}
    >
      {shapeOf(verdict)}
    </svg>
  )
}

function shapeOf(verdict: Verdict) {
  if (verdict === 'bridgeable' || verdict === 'short') {
    return <path className="verdict-fill" d="M12 3 22 20.5H2Z" />
  }
  if (verdict === 'sufficient') return <circle className="verdict-fill" cx="12" cy="12" r="5.5" />
  if (verdict === 'absent') return <path className="verdict-line" d="M6 12H18" />
  return <rect className="verdict-line" x="5" y="5" width="14" height="14" />
}
