import { INDEX_SOURCE, type IndexCoefficients } from '#domain/avian/exposure/published-index.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { localToday } from '../../state/today.ts'
import { Button } from '../../ui/button.tsx'
import { FigureField } from '../figure-field.tsx'
import { TextField } from '../pole/text-field.tsx'
import { Section } from './section.tsx'
import type { SectionProps } from './section-props.ts'

const COEFFICIENTS = [
  { key: 'intercept', label: 'Intercept' },
  { key: 'perPhase', label: 'For each phase' },
  { key: 'perJumper', label: 'For each jumper' },
  { key: 'grounded', label: 'Where grounded' },
] as const

/** Coefficients of the published index, copied from the paper by whoever has it. */
export function IndexSection({ settings, onChange }: SectionProps) {
  const own = settings.publishedIndex
  const change = (part: Partial<IndexCoefficients>) =>
    own && onChange({ publishedIndex: { ...own, ...part } })
  const begin = () =>
    onChange({
      publishedIndex: {
        intercept: 0,
        perPhase: 0,
        perJumper: 0,
        grounded: 0,
        copiedBy: '',
        copiedOn: localToday(),
      },
    })
  return (
    <Section
      title="Published index"
      now={own ? `entered by ${own.copiedBy || 'nobody yet'}` : 'no coefficients: not shown'}
    >
      <p className="small">
        None are shipped. With the coefficients of the paper, each pole is shown as “high risk” or
        “below high risk”, never as a chance. <HowSure sureness="published" source={INDEX_SOURCE} />
      </p>
      {!own && (
        <div>
          <Button onClick={begin}>Enter the coefficients of the paper</Button>
        </div>
      )}
      {own && (
        <>
          <div className="setting-pair">
            {COEFFICIENTS.map(({ key, label }) => (
              <FigureField
                key={key}
                label={label}
                least={-1000}
                most={1000}
                value={own[key]}
                onChange={(value) => value !== null && change({ [key]: value })}
              />
            ))}
            <TextField
              label="Copied from the paper by"
              fault={own.copiedBy.trim() === '' ? 'Say who copied them.' : null}
              value={own.copiedBy}
              onType={(copiedBy) => change({ copiedBy })}
            />
            <TextField
              label="Copied on"
              type="date"
              fault={own.copiedOn === '' ? 'Give the day.' : null}
              value={own.copiedOn}
              onType={(copiedOn) => change({ copiedOn })}
            />
          </div>
          <div>
            <Button onClick={() => onChange({ publishedIndex: undefined })}>
              Take the coefficients out
            </Button>
          </div>
        </>
      )}
    </Section>
  )
}
