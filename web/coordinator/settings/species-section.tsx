import type { BirdSpecies } from '#domain/avian/species/bird-species.ts'
import { birdSpecies } from '#domain/avian/species/shipped-species.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { counted } from '../../state/format.ts'
import { FigureField, shownText } from '../figure-field.tsx'
import { TextField } from '../pole/text-field.tsx'
import { withSpecies } from './own-entries.ts'
import { Section } from './section.tsx'
import type { SectionProps } from './section-props.ts'
import { useGapUnit } from './size-unit.ts'

/** Sizes that pairs are held against; figures of one's own need a source. */
export function SpeciesSection({ settings, onChange }: SectionProps) {
  const now =
    settings.species.length === 0
      ? 'as shipped, all assumptions but the eagle'
      : `${counted(settings.species.length, 'species', 'species')} with figures of your own`
  return (
    <Section title="Sizes of species" now={now}>
      <p className="small">
        Wrist to wrist and head to foot: flesh that can bridge, without the feathers. Leave a field
        empty to use what is shipped.
      </p>
      {birdSpecies().map((species) => (
        <SpeciesRow key={species.id} species={species} settings={settings} onChange={onChange} />
      ))}
    </Section>
  )
}

function SpeciesRow({
  species,
  settings,
  onChange,
}: SectionProps & { readonly species: BirdSpecies }) {
  const { unit, perM } = useGapUnit()
  const own = settings.species.find(({ id }) => id === species.id)
  const change = (part: Parameters<typeof withSpecies>[2]) =>
    onChange({ species: withSpecies(settings.species, species.id, part) })
  const figures = [
    { key: 'breadthM', label: `${species.name}, wrist to wrist`, shipped: species.breadth },
    { key: 'heightM', label: `${species.name}, head to foot`, shipped: species.height },
  ] as const
  return (
    <div className="stack setting-entry">
      <div className="setting-pair">
        {figures.map(({ key, label, shipped }) => (
          <div key={key}>
            <FigureField
              label={label}
              unit={unit}
              per={perM}
              least={0.01}
              most={5}
              mayBeEmpty
              shipped={shipped.valueM}
              value={own?.[key] ?? null}
              onChange={(value) => change({ [key]: value ?? undefined })}
            />
            <span className="small">
              shipped: {shownText(shipped.valueM, perM)} {unit}{' '}
              <HowSure sureness={shipped.sureness} source={shipped.source} />
            </span>
          </div>
        ))}
      </div>
      {own && (
        <TextField
          label={`Source of the figures for the ${species.name}`}
          fault={own.source.trim() === '' ? 'Say which document, and its table or page.' : null}
          value={own.source}
          onType={(source) => change({ source })}
        />
      )}
    </div>
  )
}
