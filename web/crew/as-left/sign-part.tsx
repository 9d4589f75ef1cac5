import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { useCrewNames } from '../work/crew-names.ts'
import type { PartProps } from './part-props.ts'
import { SignaturePad } from './signature-pad.tsx'
import { TypedField } from './typed-field.tsx'

/** Day, crew, remarks, and who signs for all of it. */
export function SignPart({ fields, faults, onType }: PartProps) {
  const known = useCrewNames()
  const text = (key: string) => fields[key] ?? ''
  return (
    <>
      <Field label="Remarks" fault={faults.remarks}>
        {(control) => (
          <textarea
            {...control}
            name="remarks"
            className="input work-input"
            rows={3}
            maxLength={4000}
            value={text('remarks')}
            onChange={({ target }) => onType({ remarks: target.value })}
          />
        )}
      </Field>
      <Field label="Day of the work" fault={faults.on}>
        {(control) => (
          <input
            {...control}
            name="on"
            className="input work-input"
            type="date"
            value={text('on')}
            onChange={({ target }) => onType({ on: target.value })}
          />
        )}
      </Field>
      <Field label="Crew" hint="One name a line." fault={faults.crew}>
        {(control) => (
          <textarea
            {...control}
            name="crew"
            className="input work-input"
            rows={3}
            value={text('crew')}
            onChange={({ target }) => onType({ crew: target.value })}
          />
        )}
      </Field>
      <fieldset className="as-left-part">
        <legend>Signature</legend>
        <TypedField
          name="signedBy"
          label="Signed by"
          kind="text"
          hint="The typed name signs where none is drawn."
          value={text('signedBy')}
          fault={faults.signedBy}
          onType={(signedBy) => onType({ signedBy })}
        />
        {known.length > 0 && (
          <div className="work-pair">
            {known.map((name) => (
              <Button key={name} onClick={() => onType({ signedBy: name })}>
                {name}
              </Button>
            ))}
          </div>
        )}
        <SignaturePad
          path={text('signaturePath')}
          onDraw={(signaturePath) => onType({ signaturePath })}
        />
      </fieldset>
    </>
  )
}
