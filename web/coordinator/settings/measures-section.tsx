import type { MeasureFacts } from '#domain/avian/measures/measure.ts'
import { measureCatalogue } from '#domain/avian/measures/measure-catalogue.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { counted, usd } from '../../state/format.ts'
import { FigureField } from '../figure-field.tsx'
import { TextField } from '../pole/text-field.tsx'
import { withMeasure } from './own-entries.ts'
import { Section } from './section.tsx'
import type { SectionProps } from './section-props.ts'

/** What measures cost and how long they last. */
export function MeasuresSection({ settings, onChange }: SectionProps) {
  const now =
    settings.measures.length === 0
      ? 'as shipped, all assumptions'
      : `${counted(settings.measures.length, 'measure')} with figures of your own`
  return (
    <Section title="Costs and lives of measures" now={now}>
      <p className="small">
        Cost of one pole with labour, without the way there. Leave a field empty to use what is
        shipped.
      </p>
      {measureCatalogue().map((facts) => (
        <MeasureRow key={facts.kind} facts={facts} settings={settings} onChange={onChange} />
      ))}
    </Section>
  )
}

function MeasureRow({
  facts,
  settings,
  onChange,
}: SectionProps & { readonly facts: MeasureFacts }) {
  const { kind, costUsd, lifeYears, sureness, source } = facts
  const own = settings.measures.find((entry) => entry.kind === kind)
  const change = (part: Parameters<typeof withMeasure>[2]) =>
    onChange({ measures: withMeasure(settings.measures, kind, part) })
  return (
    <div className="stack setting-entry">
      <div className="setting-pair">
        <FigureField
          label={`${kind}, cost`}
          unit="$"
          most={1e7}
          mayBeEmpty
          shipped={costUsd}
          value={own?.costUsd ?? null}
          onChange={(value) => change({ costUsd: value ?? undefined })}
        />
        <FigureField
          label={`${kind}, life`}
          unit="years"
          least={1}
          most={100}
          mayBeEmpty
          shipped={lifeYears}
          value={own?.lifeYears ?? null}
          onChange={(value) => change({ lifeYears: value ?? undefined })}
        />
      </div>
      <span className="small">
        shipped: {usd(costUsd)}, {lifeYears} years <HowSure sureness={sureness} source={source} />
      </span>
      {own && (
        <TextField
          label={`Source of the figures for the ${kind}`}
          fault={own.source.trim() === '' ? 'Say where the figure is from.' : null}
          value={own.source}
          onType={(text) => change({ source: text })}
        />
      )}
    </div>
  )
}
