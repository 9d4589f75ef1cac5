import { ASSUMED_FOLLOW_UP, FOLLOW_UP_STEPS } from '#domain/avian/account/follow-up.ts'
import type { FollowUpDays } from '#domain/avian/bird-settings.ts'
import { HowSure } from '../../birds/how-sure.tsx'
import { Button } from '../../ui/button.tsx'
import { FigureField } from '../figure-field.tsx'
import { Section } from './section.tsx'
import type { SectionProps } from './section-props.ts'

const BIRDS = [
  { key: 'followUpEagle', of: 'eagle', title: 'After an eagle' },
  { key: 'followUpOther', of: 'other', title: 'After another bird' },
] as const

const STEP_WORDS: Readonly<Record<keyof FollowUpDays, string>> = {
  visit: 'visit, after the find',
  fix: 'fix, after the find',
  inspection: 'inspection, after the fix',
  neighbours: 'similar poles nearby, after the find',
}

/** Days until steps after a find are due, and months between looks at what is installed. */
export function TimesSection({ settings, onChange }: SectionProps) {
  const { inspectEveryMonths } = settings
  const now = `${inspectEveryMonths === undefined ? 'no interval between looks set' : `a look every ${inspectEveryMonths} months`}; follow-up ${settings.followUpEagle || settings.followUpOther ? 'of your own' : 'as shipped'}`
  return (
    <Section title="Follow-up and inspection" now={now}>
      <FigureField
        label="Months between looks at what is installed"
        hint="None is shipped: without one, only items with an interval of their own come due."
        isWhole
        least={1}
        most={600}
        mayBeEmpty
        value={inspectEveryMonths ?? null}
        onChange={(months) => onChange({ inspectEveryMonths: months ?? undefined })}
      />
      <p className="small">
        Days until each step is due, counted in days.{' '}
        <HowSure
          sureness="assumption"
          source="No published limits were found; set what the utility and the agency have agreed."
        />
      </p>
      {BIRDS.map(({ key, of, title }) => {
        const own = settings[key]
        const days = own ?? ASSUMED_FOLLOW_UP[of]
        return (
          <fieldset key={key} className="setting-entry stack">
            <legend>{title}</legend>
            <div className="setting-pair">
              {FOLLOW_UP_STEPS.map((step) => (
                <FigureField
                  key={step}
                  label={STEP_WORDS[step]}
                  unit="days"
                  isWhole
                  most={3650}
                  value={days[step]}
                  onChange={(count) =>
                    count !== null && onChange({ [key]: { ...days, [step]: count } })
                  }
                />
              ))}
            </div>
            {own && (
              <div>
                <Button onClick={() => onChange({ [key]: undefined })}>Use what is shipped</Button>
              </div>
            )}
          </fieldset>
        )
      })}
    </Section>
  )
}
