import { EXPOSURE_FACTORS } from '#domain/avian/exposure/exposure.ts'
import {
  exposureWeights,
  SHIPPED_WEIGHTS,
  WEIGHTS_ARE_JUDGEMENT,
} from '#domain/avian/exposure/weights.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { FigureField } from '../figure-field.tsx'
import { Section } from './section.tsx'
import type { SectionProps } from './section-props.ts'

/** How much each clue counts in the exposure of a pole. */
export function WeightsSection({ settings, onChange }: SectionProps) {
  const weights = exposureWeights(settings)
  const now = EXPOSURE_FACTORS.map((factor) => `${factor} ${weights[factor]}`).join(', ')
  return (
    <Section title="Weights of exposure" now={now}>
      <p className="small">
        A weight of 0 leaves a clue out.{' '}
        <HowSure sureness="assumption" source={WEIGHTS_ARE_JUDGEMENT} />
      </p>
      <div className="setting-pair">
        {EXPOSURE_FACTORS.map((factor) => (
          <FigureField
            key={factor}
            label={factor}
            hint={`Judgement; shipped: ${SHIPPED_WEIGHTS[factor]}.`}
            most={10}
            mayBeEmpty
            shipped={SHIPPED_WEIGHTS[factor]}
            value={settings.weights[factor] ?? null}
            onChange={(value) => {
              const { [factor]: _, ...others } = settings.weights
              onChange({ weights: value === null ? others : { ...others, [factor]: value } })
            }}
          />
        ))}
      </div>
    </Section>
  )
}
