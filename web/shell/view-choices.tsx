import { PHASES } from '#domain/units/phases.ts'
import { select, useSelection } from '../state/selection.ts'
import { chooseTheme, useThemeChoice } from '../state/theme.ts'
import { BarSelect } from './bar-select.tsx'

const PHASE_CHOICES = [
  ['worst', 'Worst phase'] as const,
  ...PHASES.map((phase) => [phase, `Phase ${phase}`] as const),
]

/** How things are shown: phase, regulator positions, units, colours. */
export function ViewChoices() {
  const { phase, units, taps } = useSelection()
  const theme = useThemeChoice()
  return (
    <>
      <BarSelect
        label="Phase"
        value={phase}
        choices={PHASE_CHOICES}
        onChoose={(chosen) => select({ phase: chosen })}
      />
      <BarSelect
        label="Regulators"
        value={taps}
        choices={[
          ['controlled', 'Follow controls'],
          ['fixed', 'As recorded'],
        ]}
        onChoose={(chosen) => select({ taps: chosen })}
      />
      <BarSelect
        label="Units"
        value={units}
        choices={[
          ['us', 'Feet, miles'],
          ['metric', 'Metres, km'],
        ]}
        onChoose={(chosen) => select({ units: chosen })}
      />
      <BarSelect
        label="Colours"
        value={theme}
        choices={[
          ['system', 'As the device'],
          ['light', 'Light'],
          ['dark', 'Dark'],
        ]}
        onChoose={chooseTheme}
      />
    </>
  )
}
