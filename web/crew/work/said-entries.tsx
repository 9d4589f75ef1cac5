import { Moment } from '../../record/moment.tsx'
import type { FieldEntry } from './fold-field-job.ts'
import { StandingMark } from './standing-mark.tsx'

interface Props {
  readonly poleId: string
  readonly entries: readonly FieldEntry[]
}

/** Remarks and deviations of a pole, in their order. */
export function SaidEntries({ poleId, entries }: Props) {
  const said = entries.flatMap(({ entry, standing }) =>
    (entry.kind === 'remark' || entry.kind === 'deviation') && entry.pole === poleId
      ? [{ ...entry, standing }]
      : [],
  )
  if (said.length === 0) return null
  return (
    <ul className="stack" aria-label="Remarks and deviations">
      {said.map(({ id, at, kind, text, standing }) => (
        <li key={id}>
          <strong>{kind === 'deviation' ? 'Done otherwise: ' : 'Remark: '}</strong>
          {text}
          <br />
          <span className="small">
            <Moment at={at} /> <StandingMark standing={standing} />
          </span>
        </li>
      ))}
    </ul>
  )
}
