import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import { BankDrawing } from './bank-drawing.tsx'
import { bankStanding, isDrawnAlike } from './plan/bank-standing.ts'

interface Props {
  readonly kind: JobKind
  readonly bank: BankWork
}

/** The one-line drawing of a bank before and after the work, or once where nothing of it differs. */
export function BankDrawings({ kind, bank }: Props) {
  const { before, after } = bankStanding(kind, bank)
  if (before && after && !isDrawnAlike(before, after)) {
    return (
      <div className="bank-drawings">
        <BankDrawing regulator={before} when="Before the work" />
        <BankDrawing regulator={after} when="After the work" />
      </div>
    )
  }
  const [only, when] = after ? [after, before ? undefined : 'After the work'] : [before, BEFORE]
  return only && <BankDrawing regulator={only} {...(when && { when })} />
}

const BEFORE = 'Before the work; after it the line runs straight on'
