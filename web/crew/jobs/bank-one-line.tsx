import { useState } from 'react'
import type { Regulator } from '#domain/feeder/equipment.ts'
import { BankDrawing } from '../../jobs/bank-drawing.tsx'
import { Button } from '../../ui/button.tsx'
import { Dialog } from '../../ui/dialog.tsx'

/** The one-line drawing of a bank, and the same large enough to read on a phone. */
export function BankOneLine({ regulator }: { readonly regulator: Regulator }) {
  const [isLarge, setIsLarge] = useState(false)
  return (
    <>
      <BankDrawing regulator={regulator} />
      <Button onClick={() => setIsLarge(true)}>Show it larger</Button>
      {isLarge && (
        <Dialog title="One-line drawing of the bank" isWide onClose={() => setIsLarge(false)}>
          <BankDrawing regulator={regulator} />
        </Dialog>
      )}
    </>
  )
}
