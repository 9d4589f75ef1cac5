import type { Feeder } from '#domain/feeder/feeder.ts'
import type { JobPlan } from '#domain/jobs/job-plan.ts'
import { useFeeder } from '../../state/feeder.tsx'
import { ArrivingTitle } from '../../ui/arriving-title.tsx'
import { QrDrawing } from '../../ui/qr-drawing.tsx'
import { usngText } from '../places/usng.ts'
import { type JobLabel, jobLabels, labelsInWords } from './job-labels.ts'
import { PaperSheet } from './paper-sheet.tsx'
import { poleLink } from './pole-link.ts'

interface Props {
  readonly plan: JobPlan
  /** Ids of its poles, in the order in which they are printed. */
  readonly order: readonly string[]
  readonly onBack: () => void
}

/** Labels, three across: what it is of, feeder, grid reference, and a code with the link to the pole. */
export function LabelSheet({ plan, order, onBack }: Props) {
  const { feeder, poleById } = useFeeder()
  const labels = jobLabels(
    plan,
    order.filter((id) => poleById.has(id)),
  )
  return (
    <PaperSheet label="Labels of the job" backWords="Back to the job" onBack={onBack}>
      <div className="paper-labels-head">
        <ArrivingTitle of={order.join(' ')}>{labelsInWords(labels)}</ArrivingTitle>
        <p>
          Print at 100 %, on label stock or paper that lasts outdoors. The code opens the pole on{' '}
          {window.location.host}: print anew if the server’s address changes. A label is no proof of
          the pole: the tag and what hangs there are.
        </p>
      </div>
      <ul className="paper-labels">
        {labels.map((label) => (
          <Label key={`${label.of} ${label.pole}`} feeder={feeder} label={label} />
        ))}
      </ul>
    </PaperSheet>
  )
}

function Label({ feeder, label }: { readonly feeder: Feeder; readonly label: JobLabel }) {
  const { of, pole, title, detail } = label
  const { header } = feeder
  const at = useFeeder().poleById.get(pole)?.at
  const grid = at && usngText(at)
  return (
    <li className="paper-label">
      <QrDrawing
        text={poleLink(window.location, header.id, pole)}
        label={`Code with the link to pole ${pole}`}
      />
      <span className="paper-label-words">
        <strong className={of === 'pole' ? 'paper-label-id' : undefined}>{title}</strong>
        {detail && <span>{detail}</span>}
        <span>{header.name}</span>
        {grid && <span>{grid}</span>}
      </span>
    </li>
  )
}
