import { useState } from 'react'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import { BankDrawings } from '../../jobs/bank-drawings.tsx'
import { Button } from '../../ui/button.tsx'
import { Dialog } from '../../ui/dialog.tsx'

interface Props {
  readonly kind: JobKind
  readonly bank: BankWork
}

/** The one-line drawing of a bank before and after the work, and the same large enough to read on a phone. */
export function BankOneLine({ kind, bank }: Props) {
  const [isLarge, setIsLarge] = useState(false)
  return (
    <>
      <BankDrawings kind={kind} bank={bank} />
      <Button onClick={() => setIsLarge(true)}>Show it larger</Button>
      {isLarge && (
        <Dialog title="One-line drawing of the bank" isWide onClose={() => setIsLarge(false)}>
          <BankDrawings kind={kind} bank={bank} />
        </Dialog>
      )}
    </>
  )
}
