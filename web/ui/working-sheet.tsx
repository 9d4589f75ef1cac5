import { Dialog } from './dialog.tsx'
import './working-sheet.css'

export interface WorkingSheetProps {
  readonly title: string
  readonly result: string
  readonly formula: readonly string[]
  readonly inputs: readonly { readonly name: string; readonly value: string }[]
  readonly source: string
  readonly sureness: string
  readonly changeAt?: string
  readonly onClose: () => void
}

/** How a figure came about: the same sheet for every computed figure. */
export function WorkingSheet(props: WorkingSheetProps) {
  return (
    <Dialog title={`Working shown: ${props.title}`} onClose={props.onClose}>
      <div className="stack">
        <p className="working-result">{props.result}</p>
        <div className="working-formula">
          {props.formula.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
        <dl className="working-inputs">
          {props.inputs.map(({ name, value }) => (
            <div key={name} style={{ display: 'contents' }}>
              <dt>{name}</dt>
              <dd>{value}</dd>
            </div>
          ))}
        </dl>
        <p>
          <strong>Source:</strong> {props.source}
        </p>
        <p>
          <strong>How sure:</strong> {props.sureness}
        </p>
        {props.changeAt && (
          <p>
            <strong>Change it:</strong> {props.changeAt}
          </p>
        )}
      </div>
    </Dialog>
  )
}
