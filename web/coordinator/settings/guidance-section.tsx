import { EAGLE_GUIDANCE } from '#domain/avian/eagle-guidance.ts'
import { birdSpecies, designSpecies } from '#domain/avian/species/shipped-species.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { Button } from '../../ui/button.tsx'
import { Field } from '../../ui/field.tsx'
import { FigureField, shownText } from '../figure-field.tsx'
import { TextField } from '../pole/text-field.tsx'
import { Section } from './section.tsx'
import type { SectionProps } from './section-props.ts'
import { useGapUnit } from './size-unit.ts'

const SHIPPED = {
  horizontalM: EAGLE_GUIDANCE.horizontalM,
  verticalM: EAGLE_GUIDANCE.verticalM,
  citation: '',
}

/** Separation that poles are held against, and the species that decides. */
export function GuidanceSection({ settings, onChange }: SectionProps) {
  const { unit, perM } = useGapUnit()
  const { guidance } = settings
  const shown = guidance ?? SHIPPED
  const species = designSpecies(settings)
  const change = (part: Partial<typeof SHIPPED>) => onChange({ guidance: { ...shown, ...part } })
  const now = `${shownText(shown.horizontalM, perM)} ${unit} across, ${shownText(shown.verticalM, perM)} ${unit} up and down; ${species.name} decides`
  return (
    <Section title="Separation and design species" now={now}>
      <p className="small">
        Shipped: {shownText(EAGLE_GUIDANCE.horizontalM, perM)} {unit} across or{' '}
        {shownText(EAGLE_GUIDANCE.verticalM, perM)} {unit} up and down, for eagles.{' '}
        <HowSure
          sureness={EAGLE_GUIDANCE.sureness}
          source={`${EAGLE_GUIDANCE.citation}. ${EAGLE_GUIDANCE.note}`}
        />
      </p>
      <div className="setting-pair">
        <FigureField
          label="Across"
          unit={unit}
          per={perM}
          least={0.01}
          most={5}
          value={shown.horizontalM}
          onChange={(horizontalM) => horizontalM !== null && change({ horizontalM })}
        />
        <FigureField
          label="Up and down"
          unit={unit}
          per={perM}
          least={0.01}
          most={5}
          value={shown.verticalM}
          onChange={(verticalM) => verticalM !== null && change({ verticalM })}
        />
      </div>
      {guidance && (
        <>
          <TextField
            label="Where these figures are from"
            fault={guidance.citation.trim() === '' ? 'Say which document, and its date.' : null}
            isLong
            value={guidance.citation}
            onType={(citation) => change({ citation })}
          />
          <div>
            <Button onClick={() => onChange({ guidance: undefined })}>Use what is shipped</Button>
          </div>
        </>
      )}
      <Field label="Species that decides on the state of a pole">
        {(control) => (
          <select
            className="input"
            value={species.id}
            onChange={({ target }) => onChange({ designSpeciesId: target.value })}
            {...control}
          >
            {birdSpecies(settings).map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Field>
      <label className="bird-check">
        <input
          type="checkbox"
          checked={settings.countWetFeathers}
          onChange={({ target }) => onChange({ countWetFeathers: target.checked })}
        />
        Count wet feathers: the whole wingspan and length conduct
      </label>
    </Section>
  )
}
