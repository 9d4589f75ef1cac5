import type { VoltageLimits } from '#domain/feeder/header.ts'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { M_PER_FT } from '#domain/units/length.ts'
import type { Units } from '../state/address.ts'

/** Figures of the form, as typed. Lengths are in feet or metres, as the person reads them. */
export const NUMBER_CHOICES = [
  'lowVolts120',
  'highVolts120',
  'ratingMarginPct',
  'accessWithinM',
  'leastPoleHeightM',
  'weakestPoleClass',
  'mostLineAngleDeg',
  'energyUsdPerKwh',
  'bankUsd',
  'unitUsd',
  'transformerMoveUsd',
  'studyYears',
  'discountRatePct',
] as const
export type NumberChoice = (typeof NUMBER_CHOICES)[number]

export interface SuggestChoices {
  readonly banks: '1' | '2'
  readonly goal: 'service' | 'loss'
  readonly compensation: SiteRequest['compensation']
  readonly serviceTransformers: SiteRequest['serviceTransformers']
  /** 1 to 12, or empty for any month. */
  readonly workMonth: string
  readonly numbers: Readonly<Record<NumberChoice, string>>
}

const LENGTHS: readonly NumberChoice[] = ['accessWithinM', 'leastPoleHeightM']
const MONEY: readonly NumberChoice[] = [
  'energyUsdPerKwh',
  'bankUsd',
  'unitUsd',
  'transformerMoveUsd',
  'studyYears',
  'discountRatePct',
]

/** Defaults of a request, with the limits of the feeder, as the form shows them. */
export function defaultChoices(limits: VoltageLimits, units: Units): SuggestChoices {
  const request = SiteRequest.parse({})
  const figures: Record<NumberChoice, number> = {
    ...limits,
    ratingMarginPct: request.ratingMarginPct,
    accessWithinM: request.accessWithinM,
    leastPoleHeightM: request.leastPoleHeightM,
    weakestPoleClass: request.weakestPoleClass,
    mostLineAngleDeg: request.mostLineAngleDeg,
    ...request.money,
  }
  const shown = (name: NumberChoice) =>
    units === 'us' && LENGTHS.includes(name) ? Math.round(figures[name] / M_PER_FT) : figures[name]
  const numbers = Object.fromEntries(NUMBER_CHOICES.map((name) => [name, String(shown(name))]))
  return {
    banks: '1',
    goal: 'service',
    compensation: request.compensation,
    serviceTransformers: request.serviceTransformers,
    workMonth: '',
    numbers: numbers as Record<NumberChoice, string>,
  }
}

export type ChoiceFaults = Partial<Record<NumberChoice, string>>

/** The request that the form asks for, or what is wrong in which field. */
export function requestOfChoices(
  choices: SuggestChoices,
  units: Units,
): { readonly request: SiteRequest } | { readonly faults: ChoiceFaults } {
  const faults: ChoiceFaults = {}
  const figures: Partial<Record<NumberChoice, number>> = {}
  for (const name of NUMBER_CHOICES) {
    const text = choices.numbers[name].trim()
    const figure = Number(text)
    if (text === '' || !Number.isFinite(figure)) faults[name] = 'Give a number.'
    else figures[name] = units === 'us' && LENGTHS.includes(name) ? figure * M_PER_FT : figure
  }
  if ((figures.lowVolts120 ?? 0) >= (figures.highVolts120 ?? 1)) {
    faults.lowVolts120 ??= 'Must be below the high limit.'
  }
  if (Object.keys(faults).length > 0) return { faults }
  const parsed = SiteRequest.safeParse(requestShape(choices, figures))
  if (parsed.success) return { request: parsed.data }
  for (const { path, message } of parsed.error.issues) {
    const name = NUMBER_CHOICES.find((choice) => choice === path.at(-1))
    if (name) faults[name] = message
  }
  return { faults }
}

function requestShape(
  { banks, compensation, goal, serviceTransformers, workMonth }: SuggestChoices,
  figures: Partial<Record<NumberChoice, number>>,
) {
  const pick = (isMoney: boolean) =>
    Object.fromEntries(
      Object.entries(figures).filter(([name]) => MONEY.some((money) => money === name) === isMoney),
    )
  return {
    ...pick(false),
    banks: Number(banks),
    goal,
    compensation,
    serviceTransformers,
    ...(workMonth !== '' && { workMonth: Number(workMonth) }),
    money: pick(true),
  }
}
