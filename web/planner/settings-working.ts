import type { FeederHeader } from '#domain/feeder/header.ts'
import type { SiteRequest } from '#domain/siting/site-request.ts'
import type {
  CompensationFigures,
  PhaseImpedance,
  ProposedBank,
  SettingsOutcome,
} from '#domain/siting/site-result.ts'
import { thousands } from '../state/format.ts'
import type { Working } from '../state/working.ts'

type Input = Working['inputs'][number]

/** How the settings of a bank came about, and what plain ones would have given. */
export function settingsWorking(
  header: FeederHeader,
  bank: ProposedBank,
  request: SiteRequest,
): Working {
  const { bandCentreV, rV = 0, settings, xV = 0 } = bank
  const title = `settings of the bank at pole ${bank.pole}`
  const result = `band centre ${bandCentreV} V, R ${rV} V, X ${xV} V`
  const changeAt =
    '“Band centre and line-drop compensation” in the choices of “Suggest a pole”, before the next study.'
  if (!settings) {
    return {
      title,
      result,
      formula: ['band centre as asked for, R = X = 0'],
      inputs: [{ name: 'Band centre asked for', value: `${request.bandCentreV} V` }],
      source: 'The request of the study; no settings were worked out for this bank.',
      sureness: 'assumption',
      changeAt,
    }
  }
  const { chosen, compensation, plain, tried } = settings
  return {
    title,
    result,
    formula: [
      'Z = (volts at the bank − volts at the load centre) / line current, mean of the phases',
      'R′ + jX′ = Z · CT primary / PT ratio, in volts of the control',
      'band centre ≤ high limit − bandwidth / 2 − volts of the compensation at the heaviest load',
      'taken only where no customer comes to stand farther outside in any case, and where it wins a customer, else 0.75 V of margin, else 2 % of the loss',
    ],
    inputs: [
      ...(compensation ? impedanceInputs(header, bank, compensation) : []),
      { name: 'Bandwidth', value: `${bank.bandwidthV} V` },
      { name: 'Other settings tried', value: String(tried) },
      ...outcomeInputs('With these settings', chosen),
      ...outcomeInputs(`With ${plain.bandCentreV} V and no compensation`, plain),
    ],
    source:
      'Kersting, Distribution System Modeling and Analysis, chapter 7, from memory: equivalent impedance from a power flow, and one setting for all units of a bank. What a gain must be worth, and rounding to half volts, is common practice, no source. Every case was run with these settings.',
    sureness: 'from memory',
    changeAt,
  }
}

function impedanceInputs(
  header: FeederHeader,
  { ctPrimaryA, ptRatio }: ProposedBank,
  figures: CompensationFigures,
): Input[] {
  const { caseId, fullRV, fullXV, kind, loadCentre, phases, rOhm, share, xOhm } = figures
  const name = header.cases.find(({ id }) => id === caseId)?.name ?? caseId
  return [
    { name: `Load centre (${kind})`, value: `pole ${loadCentre}` },
    { name: 'Case that Z is read in', value: name },
    ...Object.entries(phases).flatMap(([phase, read]) => phaseInputs(phase, read)),
    { name: 'Z, mean of the phases', value: `${inOhms(rOhm, xOhm)}` },
    { name: 'CT primary, PT ratio', value: `${ctPrimaryA} A, ${ptRatio.toFixed(1)} : 1` },
    { name: 'R′, X′ in full', value: `${fullRV.toFixed(2)} V, ${fullXV.toFixed(2)} V` },
    { name: 'Share that is set', value: `${(share * 100).toFixed(0)} %, then to half volts` },
  ]
}

function phaseInputs(phase: string, read: PhaseImpedance): Input[] {
  const polar = (size: string, degrees: number) => `${size} ∠ ${degrees.toFixed(1)}°`
  return [
    {
      name: `Volts at the bank, ${phase}`,
      value: polar(`${thousands(read.bankV)} V`, read.bankDeg),
    },
    {
      name: `Volts at the load centre, ${phase}`,
      value: polar(`${thousands(read.centreV)} V`, read.centreDeg),
    },
    { name: `Line current, ${phase}`, value: polar(`${read.lineA.toFixed(1)} A`, read.lineDeg) },
    { name: `Z, ${phase}`, value: inOhms(read.rOhm, read.xOhm) },
  ]
}

function inOhms(rOhm: number, xOhm: number): string {
  const sign = xOhm < 0 ? '−' : '+'
  return `${rOhm.toFixed(2)} ${sign} j${Math.abs(xOhm).toFixed(2)} Ω`
}

function outcomeInputs(when: string, outcome: SettingsOutcome): Input[] {
  const { customersOutside, customersOutsideAtEdges, marginVolts120, meanLossKw } = outcome
  return [
    { name: `${when}: customers outside, all cases`, value: String(customersOutside) },
    { name: `${when}: at the worse edge of the band`, value: String(customersOutsideAtEdges) },
    {
      name: `${when}: least margin behind the bank, and over the hours`,
      value: `${marginVolts120.toFixed(2)} V, ${outcome.meanMarginVolts120.toFixed(2)} V`,
    },
    { name: `${when}: mean loss`, value: `${meanLossKw.toFixed(2)} kW` },
  ]
}
