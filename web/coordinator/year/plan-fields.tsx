import { IsoDate } from '#domain/feeder/identifiers.ts'
import { M_PER_MILE } from '#domain/units/length.ts'
import { useSelection } from '../../state/selection.ts'
import { FigureField } from '../figure-field.tsx'
import { TextField } from '../pole/text-field.tsx'
import type { PlanChoices } from './plan-choices.ts'

interface Props {
  readonly choices: PlanChoices
  readonly onChange: (change: Partial<PlanChoices>) => void
}

/** Season, crews and visits of a plan. */
export function PlanFields({ choices, onChange }: Props) {
  const isUs = useSelection().units === 'us'
  return (
    <div className="year-fields">
      <DayField
        label="Work from"
        value={choices.from}
        fault={null}
        onChange={(from) => onChange({ from })}
      />
      <DayField
        label="Work until"
        value={choices.to}
        fault={choices.to < choices.from ? 'The last day comes before the first.' : null}
        onChange={(to) => onChange({ to })}
      />
      <FigureField
        label="Crews"
        isWhole
        least={1}
        most={50}
        value={choices.crews}
        onChange={(crews) => crews !== null && onChange({ crews })}
      />
      <FigureField
        label="Poles a crew does in a day"
        hint="An assumption."
        least={0.5}
        most={50}
        value={choices.polesPerCrewDay}
        onChange={(polesPerCrewDay) => polesPerCrewDay !== null && onChange({ polesPerCrewDay })}
      />
      <FigureField
        label="One way to one place"
        unit="$"
        hint="An assumption; poles near each other share it."
        most={1e6}
        value={choices.visitCostUsd}
        onChange={(visitCostUsd) => visitCostUsd !== null && onChange({ visitCostUsd })}
      />
      <FigureField
        label="Poles within this share a visit"
        unit={isUs ? 'mi' : 'km'}
        per={isUs ? M_PER_MILE : 1000}
        most={50_000}
        value={choices.sharedVisitM}
        onChange={(sharedVisitM) => sharedVisitM !== null && onChange({ sharedVisitM })}
      />
    </div>
  )
}

interface DayProps {
  readonly label: string
  readonly value: string
  readonly fault: string | null
  readonly onChange: (day: string) => void
}

function DayField({ label, value, fault, onChange }: DayProps) {
  return (
    <TextField
      label={label}
      type="date"
      value={value}
      fault={fault}
      onType={(text) => {
        if (IsoDate.safeParse(text).success) onChange(text)
      }}
    />
  )
}
