import { useState } from 'react'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import type { BankWork } from '#domain/jobs/job-plan.ts'
import { Button } from '../ui/button.tsx'
import { Dialog } from '../ui/dialog.tsx'
import { BankDrawings } from './bank-drawings.tsx'

interface Props {
  readonly kind: JobKind
  readonly bank: BankWork
}

/** The one-line drawing of a bank before and after the work, and the same large enough to read on a phone or beside a map. */
export function BankOneLine({ kind, bank }: Props) {
  const [isLarge, setIsLarge] = useState(false)
  return (
    <>
      <BankDrawings kind={kind} bank={bank} />
      <div>
        <Button onClick={() => setIsLarge(true)}>Show it larger</Button>
      </div>
      {isLarge && (
        <Dialog title="One-line drawing of the bank" isWide onClose={() => setIsLarge(false)}>
          <div className="bank-large">
            <BankDrawings kind={kind} bank={bank} />
          </div>
        </Dialog>
      )}
    </>
  )
}
