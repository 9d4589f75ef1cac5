import type { BirdSettings, BufferRule, BufferSet } from '#domain/avian/bird-settings.ts'
import { bufferSetInForce, ruleFor, SHIPPED_BUFFER_SETS } from '#domain/avian/nests/buffer-sets.ts'
import { dayInWords } from '#domain/avian/nests/calendar-days.ts'
import type { Fields } from '../../record/merge-fields.ts'
import type { Units } from '../../state/address.ts'
import { inWords, length } from '../../state/format.ts'
import { useSelection } from '../../state/selection.ts'
import { Button } from '../../ui/button.tsx'
import { fieldsOfRule } from './nest-body.ts'

interface Props {
  readonly species: string
  readonly settings: BirdSettings | undefined
  readonly onType: (change: Fields) => void
}

/** What each set of recommendations says of the species; one can be taken over with its source. */
export function BufferRules({ species, settings, onType }: Props) {
  const { units } = useSelection()
  const inForce = bufferSetInForce(settings)
  const found = [...(settings?.bufferSets ?? []), ...SHIPPED_BUFFER_SETS].flatMap((set) => {
    const rule = ruleFor(set, species)
    return rule ? [{ set, rule }] : []
  })
  return (
    <div className="state-note">
      <span>
        {inForce && ruleFor(inForce, species)
          ? `${inForce.region} is in force and goes before the figures below, which count once no set is.`
          : 'No set in force has a rule for this species: the figures below count.'}{' '}
        Advisory: the agency decides.
      </span>
      {found.length === 0 && (
        <span>
          No set has a rule for “{species || 'no species yet'}”. Give figures of your own.
        </span>
      )}
      {found.map(({ set, rule }) => (
        <div key={set.id} className="stack">
          <span>{ruleInWords(set, rule, units)}</span>
          <Button onClick={() => onType(fieldsOfRule(rule, sourceOf(set)))}>
            Take the figures of {set.region}
          </Button>
        </div>
      ))}
    </div>
  )
}

function ruleInWords(set: BufferSet, rule: BufferRule, units: Units): string {
  const season = `${dayInWords(rule.from)} to ${dayInWords(rule.to)}`
  const buffer = inWords(length(rule.distanceM, units))
  return `${set.region}: ${buffer}, ${season}. Source: ${sourceOf(set)}. How sure: ${rule.sureness}.`
}

function sourceOf({ source, sourceDate }: BufferSet): string {
  return `${source} (${sourceDate})`
}
