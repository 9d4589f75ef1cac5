import { useMay } from '../../api/account.ts'
import { select } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { addressOfFindsView } from './finds-view.ts'

/** Steps from a pole to the forms of a find and of a nest, which then begin with this pole. */
export function RecordHere({ pole }: { readonly pole: string }) {
  const mayRecordFind = useMay('record or change a find')
  const mayRecordNest = useMay('record or change a nest')
  const open = (form: 'new find' | 'new nest') =>
    select({ pole, view: addressOfFindsView({ open: form }) })
  return (
    <div className="row">
      {mayRecordFind && <Button onClick={() => open('new find')}>Record a find here</Button>}
      {mayRecordNest && <Button onClick={() => open('new nest')}>Record a nest here</Button>}
    </div>
  )
}
