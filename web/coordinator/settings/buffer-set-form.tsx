import type { BufferRule, BufferSet } from '#domain/avian/bird-settings.ts'
import { BufferRule as BufferRuleSchema } from '#domain/avian/bird-settings.ts'
import { Button } from '../../ui/button.tsx'
import { FigureField } from '../figure-field.tsx'
import { ChoiceField } from '../pole/choice-field.tsx'
import { TextField } from '../pole/text-field.tsx'
import { changedRule, NEW_RULE } from './own-entries.ts'
import { useBufferUnit } from './size-unit.ts'

interface Props {
  readonly set: BufferSet
  readonly onChange: (set: BufferSet) => void
}

const needed = (text: string, words: string): string | null => (text.trim() === '' ? words : null)

/** A set of one's own: name, source and rules. */
export function BufferSetForm({ set, onChange }: Props) {
  const change = (part: Partial<BufferSet>) => onChange({ ...set, ...part })
  return (
    <div className="stack">
      <TextField
        label="Region or name"
        fault={needed(set.region, 'Name the region that it is for.')}
        value={set.region}
        onType={(region) => change({ region })}
      />
      <TextField
        label="Source"
        isLong
        fault={needed(set.source, 'Say which document.')}
        value={set.source}
        onType={(source) => change({ source })}
      />
      <TextField
        label="Date of the source"
        value={set.sourceDate}
        onType={(sourceDate) => change({ sourceDate })}
      />
      {numbered(set.rules).map(({ rule, index }) => (
        <RuleRow
          key={`${set.id} ${index}`}
          rule={rule}
          onChange={(changed) =>
            change({ rules: set.rules.map((other, at) => (at === index ? changed : other)) })
          }
          onDrop={() => change({ rules: set.rules.filter((_, at) => at !== index) })}
        />
      ))}
      <div>
        <Button onClick={() => change({ rules: [...set.rules, NEW_RULE] })}>Add a species</Button>
      </div>
    </div>
  )
}

/** Rules have no id: what tells two of one species apart is their place. */
const numbered = (rules: readonly BufferRule[]) => rules.map((rule, index) => ({ rule, index }))

interface RuleProps {
  readonly rule: BufferRule
  readonly onChange: (rule: BufferRule) => void
  readonly onDrop: () => void
}

const SURENESSES = BufferRuleSchema.shape.sureness.options

function RuleRow({ rule, onChange, onDrop }: RuleProps) {
  const { unit, perM } = useBufferUnit()
  const of = rule.species || 'new species'
  const change = (part: Partial<BufferRule>) => onChange(changedRule(rule, part))
  return (
    <fieldset className="setting-entry stack">
      <legend className="visually-hidden">{of}</legend>
      <div className="setting-pair">
        <TextField
          label="Species"
          fault={needed(rule.species, 'Name the species.')}
          value={rule.species}
          onType={(species) => change({ species })}
        />
        <FigureField
          label="Distance"
          unit={unit}
          per={perM}
          most={50_000}
          value={rule.distanceM}
          onChange={(distanceM) => distanceM !== null && change({ distanceM })}
        />
        <MonthDayField label="From" value={rule.from} onChange={(from) => change({ from })} />
        <MonthDayField label="To" value={rule.to} onChange={(to) => change({ to })} />
        <ChoiceField
          label="How sure"
          options={SURENESSES}
          value={rule.sureness}
          onChoose={(sureness) => change({ sureness })}
        />
        <Button aria-label={`Remove the rule for ${of}`} onClick={onDrop}>
          Remove
        </Button>
      </div>
    </fieldset>
  )
}

interface DayProps {
  readonly label: string
  readonly value: string
  readonly onChange: (monthDay: string) => void
}

/** Month and day; an end before the beginning runs over New Year. */
function MonthDayField({ label, value, onChange }: DayProps) {
  const isDay = BufferRuleSchema.shape.from.safeParse(value).success
  return (
    <TextField
      label={label}
      hint="Month-day; a season may run over New Year."
      fault={isDay ? null : 'Write month-day, as 12-15.'}
      value={value}
      onType={onChange}
    />
  )
}
