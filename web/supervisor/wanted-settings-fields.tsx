import type { Regulator } from '#domain/feeder/equipment.ts'
import { SETTING_FIELDS } from '../jobs/setting-fields.ts'
import { readWantedSettings, type WantedSettings } from '../jobs/wanted-settings.ts'
import { Field } from '../ui/field.tsx'

interface Props {
  readonly standing: Regulator
  readonly typed: WantedSettings
  readonly onType: (typed: WantedSettings) => void
}

/** What the controls of a bank are to be set to; a blank field leaves a setting as it is. */
export function WantedSettingsFields({ standing, typed, onType }: Props) {
  const { faults } = readWantedSettings(typed)
  return (
    <fieldset className="wanted-settings">
      <legend>What its controls are to be set to</legend>
      <p className="soft small">Leave blank what stays as it is. Volts on the 120 V base.</p>
      <div className="wanted-settings-grid">
        {SETTING_FIELDS.map(({ key, label, unit }) => (
          <Field
            key={key}
            label={unit ? `${label}, ${unit}` : label}
            hint={`Now ${standing[key]}${unit ? ` ${unit}` : ''}`}
            fault={faults[key] ?? null}
          >
            {(control) => (
              <input
                {...control}
                className="input"
                inputMode="decimal"
                autoComplete="off"
                value={typed[key] ?? ''}
                onChange={({ target }) => onType({ ...typed, [key]: target.value })}
              />
            )}
          </Field>
        ))}
      </div>
    </fieldset>
  )
}
