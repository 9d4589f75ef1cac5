import {
  ASSUMED_FOLLOW_UP,
  type FollowUpRule,
  followUpRule,
  proposedDueDates,
} from '#domain/avian/account/follow-up.ts'
import type { BirdSettings } from '#domain/avian/bird-settings.ts'
import { IsoDate } from '#domain/feeder/identifiers.ts'
import type { Fields } from '../../record/merge-fields.ts'
import { Button } from '../../ui/button.tsx'

interface Props {
  readonly typed: Fields
  readonly settings: BirdSettings | undefined
  readonly onType: (change: Fields) => void
}

/** Due dates by the rule for the species, offered and never written in unasked. */
export function ProposedDates({ typed, settings, onType }: Props) {
  const { species = '', foundOn = '' } = typed
  const rule = followUpRule(species, settings)
  const found = IsoDate.safeParse(foundOn)
  if (!found.success) {
    return <p className="soft small">Once the day of the find is given, due dates are offered.</p>
  }
  const fixedOn = IsoDate.safeParse(typed.fixedOn).data
  const dates = proposedDueDates({ foundOn: found.data, ...(fixedOn && { fixedOn }) }, rule.days)
  return (
    <div className="state-note">
      <span>
        Offered: visit by {dates.visit}, fix or interim cover by {dates.fix}, inspection by{' '}
        {dates.inspection}, similar poles nearby by {dates.neighbours}.
      </span>
      <span className="soft small">{ruleInWords(rule)}</span>
      <Button
        onClick={() =>
          onType({
            visitDueOn: dates.visit,
            fixDueOn: dates.fix,
            inspectionDueOn: dates.inspection,
            neighboursDueOn: dates.neighbours,
          })
        }
      >
        Take these dates
      </Button>
    </div>
  )
}

/** Days and how sure they are. */
export function ruleInWords({ days, source, sureness }: FollowUpRule): string {
  const { visit, fix, inspection, neighbours } = days
  return `${visit}, ${fix} and ${neighbours} days after the find; the inspection ${inspection} days after the fix. Source: ${source}. How sure: ${sureness}. For listed species ask for those of eagles (${ASSUMED_FOLLOW_UP.eagle.visit} and ${ASSUMED_FOLLOW_UP.eagle.fix} days) or what the agency says.`
}
