import type { Feeder } from '#domain/feeder/feeder.ts'
import type { Pole } from '#domain/feeder/pole.ts'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { QrDrawing } from '../../ui/qr-drawing.tsx'
import { usngText } from '../places/usng.ts'
import { PaperSheet } from './paper-sheet.tsx'
import { poleLink } from './pole-link.ts'

interface Props {
  readonly feeder: Feeder
  /** Ids, in the order in which they are printed. */
  readonly poles: readonly string[]
  readonly backWords?: string
  readonly onBack: () => void
}

/** Labels for poles, three across: id, feeder, grid reference, and a code with the link to the pole. */
export function LabelSheet({ feeder, poles, backWords = 'Back', onBack }: Props) {
  const poleById = new Map(feeder.poles.map((pole) => [pole.id, pole]))
  const found = poles.flatMap((id) => poleById.get(id) ?? [])
  return (
    <PaperSheet label="Labels for poles" backWords={backWords} onBack={onBack}>
      <div className="paper-labels-head">
        <ArrivingTitle of={poles.join(' ')}>
          {found.length === 1 ? 'Label for one pole' : `Labels for ${found.length} poles`}
        </ArrivingTitle>
        <p>
          Print at 100 %, on label stock or paper that lasts outdoors. The code opens the pole on{' '}
          {window.location.host}: print anew if the server’s address changes. A label is no proof of
          the pole: the tag and what hangs there are.
        </p>
        {found.length === 0 && <p>No pole was chosen.</p>}
      </div>
      <ul className="paper-labels">
        {found.map((pole) => (
          <PoleLabel key={pole.id} feeder={feeder} pole={pole} />
        ))}
      </ul>
    </PaperSheet>
  )
}

function PoleLabel({ feeder: { header }, pole }: { readonly feeder: Feeder; readonly pole: Pole }) {
  const grid = usngText(pole.at)
  return (
    <li className="paper-label">
      <QrDrawing
        text={poleLink(window.location, header.id, pole.id)}
        label={`Code with the link to pole ${pole.id}`}
      />
      <span className="paper-label-words">
        <strong className="paper-label-id">{pole.id}</strong>
        <span>{header.name}</span>
        {grid && <span>{grid}</span>}
      </span>
    </li>
  )
}
