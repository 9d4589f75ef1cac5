import type { BankWork } from '#domain/jobs/job-plan.ts'
import { SETTING_FIELDS } from '../../jobs/setting-fields.ts'
import { settingField } from './as-left-fields.ts'
import type { PartProps } from './part-props.ts'
import { isAsPlanned, settingHint } from './setting-hint.ts'
import { TypedField } from './typed-field.tsx'

interface Props extends PartProps {
  readonly bank: BankWork
}

/** Settings of the controls, begun from the plan; what is left otherwise is marked. */
export function SettingsPart({ bank, fields, faults, onType }: Props) {
  return (
    <fieldset className="as-left-part">
      <legend>Settings of the controls</legend>
      <p>Filled in from the plan. Read each back at the control; change what stands otherwise.</p>
      <div className="as-left-grid">
        {SETTING_FIELDS.map(({ key, label, unit, kind }) => {
          const name = settingField(key)
          const typed = fields[name] ?? ''
          const planned = bank.regulator[key]
          return (
            <div key={key} data-differs={!isAsPlanned(typed, planned)}>
              <TypedField
                name={name}
                label={label}
                unit={unit}
                kind={kind}
                value={typed}
                hint={settingHint(typed, planned, unit)}
                fault={faults[name]}
                onType={(value) => onType({ [name]: value })}
              />
            </div>
          )
        })}
      </div>
    </fieldset>
  )
}
