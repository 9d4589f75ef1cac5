import type { Regulator } from '../feeder/equipment.ts'
import { REGULATOR_MAX_TAP } from '../feeder/equipment.ts'
import { currentAtReducedRange } from '../siting/choose-unit.ts'
import { STEP_PU } from './bypass-current.ts'
import type { BankWork, SettingLine } from './job-plan.ts'
import { shortNumber } from './short-number.ts'

type Setting = Pick<SettingLine, 'name' | 'note'> & { readonly of: (bank: Regulator) => string }

const COMPENSATION = 'Volts at rated primary current of the current transformer.'

/** In the order in which a crew reads them off and sets them. */
const SETTINGS: readonly Setting[] = [
  {
    name: 'Band centre',
    of: ({ bandCentreV }) => `${bandCentreV.toFixed(1)} V`,
    note: 'On the 120 V base of the control.',
  },
  { name: 'Bandwidth', of: bandwidthInWords, note: 'The whole band, not half of it.' },
  {
    name: 'Time delay',
    of: ({ delayS }) => `${delayS} s`,
    note: 'A bank farther from the source waits longer than those before it.',
  },
  { name: 'Line-drop compensation R', of: ({ rV }) => signedV(rV), note: COMPENSATION },
  { name: 'Line-drop compensation X', of: ({ xV }) => signedV(xV), note: COMPENSATION },
  {
    name: 'Potential ratio',
    of: ({ ptRatio }) => `${shortNumber(ptRatio)} : 1`,
    note: 'Hold it against the nameplate and the ratio tap in the unit.',
  },
  {
    name: 'Current transformer primary',
    of: ({ ctPrimaryA }) => `${shortNumber(ctPrimaryA)} A`,
    note: 'Its secondary is on the nameplate.',
  },
  { name: 'Limits of the range', of: limitsInWords },
]

/**
 * The settings to be made at the control, each with what is there now where a bank stands. What a
 * model cannot decide is left to the utility and says so.
 */
export function settingsSheet({ regulator, standing }: BankWork): SettingLine[] {
  return [
    ...SETTINGS.map(({ name, note, of }) => {
      const value = of(regulator)
      const now = standing && of(standing)
      const change = now === undefined || now === value ? undefined : `Now ${now}.`
      const words = [change, note].filter((part) => part !== undefined).join(' ')
      return { name, value, ...(words !== '' && { note: words }) }
    }),
    {
      name: 'Reverse-power mode',
      value: 'as the utility says',
      note: 'Not decided here: it depends on generation and ties beyond the bank. Ask before the control is left in automatic.',
    },
  ]
}

function bandwidthInWords({ bandCentreV, bandwidthV }: Regulator): string {
  const [low, high] = [bandCentreV - bandwidthV / 2, bandCentreV + bandwidthV / 2]
  return `${bandwidthV.toFixed(1)} V (${low.toFixed(1)} to ${high.toFixed(1)} V)`
}

function limitsInWords({ maxRaise, maxLower, ratingA }: Regulator): string {
  const pct = (steps: number) => `${shortNumber(steps * STEP_PU * 100)} %`
  const range = `${maxRaise} raise (${pct(maxRaise)}), ${maxLower} lower (${pct(maxLower)})`
  const widest = Math.max(maxRaise, maxLower)
  if (widest === REGULATOR_MAX_TAP || ratingA === undefined) return range
  const amps = currentAtReducedRange(ratingA, widest)
  return `${range}; carries ${amps.toFixed(0)} A there (IEEE C57.15, from memory)`
}

function signedV(volts: number): string {
  return `${volts.toFixed(1).replace('-', '−')} V`
}
