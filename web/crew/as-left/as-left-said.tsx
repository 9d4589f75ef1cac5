import type { Fields } from '../../record/merge-fields.ts'
import { shownValue } from '../../record/record-fields.ts'
import type { Standing } from '../work/fold-field-job.ts'
import { StandingMark } from '../work/standing-mark.tsx'
import { type FormShape, formFields } from './as-left-fields.ts'
import { SIGNATURE_BOX } from './signature-path.ts'

interface Props {
  readonly fields: Fields
  readonly of: FormShape
  readonly standing: Standing
}

/** What was said last, to be looked at; empty fields are left out. */
export function AsLeftSaid({ fields, of, standing }: Props) {
  const signature = fields.signaturePath ?? ''
  return (
    <section className="stack" aria-label="Said as left">
      <p>
        Entered. <StandingMark standing={standing} />
      </p>
      <dl className="work-readings">
        {formFields(of).map((field) => {
          const value = shownValue(field, fields[field.key])
          if (field.key === 'signaturePath') return null
          return (
            value !== '' && (
              <div key={field.key}>
                <dt>{field.label}</dt>
                <dd>{value}</dd>
              </div>
            )
          )
        })}
      </dl>
      {signature !== '' && (
        <figure className="stack">
          <svg
            className="signature"
            viewBox={`0 0 ${SIGNATURE_BOX.width} ${SIGNATURE_BOX.height}`}
            role="img"
            aria-label={`Drawn signature of ${String(fields.signedBy ?? 'the crew')}`}
          >
            <path className="signature-ink" d={signature} />
          </svg>
          <figcaption>Drawn signature</figcaption>
        </figure>
      )}
    </section>
  )
}
