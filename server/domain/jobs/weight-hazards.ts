import { unitClassFor } from '../siting/choose-unit.ts'
import { strengthReasons } from '../siting/pole-strength.ts'
import { SiteRequest } from '../siting/site-request.ts'
import type { DraftScene } from './draft-scene.ts'
import { handlesUnits } from './is-bank-kind.ts'
import type { BankWork, Hazard } from './job-plan.ts'
import {
  ON_POLE_LB,
  type UnitWeight,
  unitWeight,
  WEIGHT_SOURCE,
  weightInWords,
} from './unit-weight.ts'

/** What hangs or is lifted, against what is recorded of the pole. */
export function weightHazards(scene: DraftScene): Hazard[] {
  const { bank, kind } = scene
  if (!bank || !handlesUnits(kind)) return []
  const what = [
    weightWords(bank),
    ...(kind === 'change out a bank' ? oldWeight(bank) : []),
    poleWords(scene, bank),
  ].join(' ')
  return [{ about: 'weight', what, pole: bank.regulator.pole, source: WEIGHT_SOURCE }]
}

function weightOf({ ratingA }: BankWork['regulator'], neutralV: number): UnitWeight | null {
  const ratedKv = unitClassFor(neutralV)?.ratedKv
  return ratedKv !== undefined && ratingA !== undefined ? unitWeight(ratedKv, ratingA) : null
}

/** Of the units that come down, where they are of another size. */
function oldWeight({ neutralV, regulator, standing }: BankWork): string[] {
  if (!standing || standing.ratingA === regulator.ratingA) return []
  const weight = weightOf(standing, neutralV)
  return [
    weight
      ? `An old unit weighs about ${weightInWords(weight)}; its nameplate governs.`
      : 'The weight of an old unit is not known here: lift by its nameplate.',
  ]
}

function weightWords({ neutralV, regulator }: BankWork): string {
  const weight = weightOf(regulator, neutralV)
  if (!weight) return 'The weight of a unit is not known here: lift by its nameplate.'
  const count = regulator.phases.length
  const isHeavy = weight.toLb > ON_POLE_LB[0]
  const heavy = isHeavy
    ? ` Single units hang on a pole up to roughly ${ON_POLE_LB[0]} to ${ON_POLE_LB[1]} lb, heavier ones stand on a platform.`
    : ''
  const all =
    count > 1 ? ` All ${count} together ${weight.fromLb * count} to ${weight.toLb * count} lb.` : ''
  return `A unit weighs about ${weightInWords(weight)}; the nameplate governs.${all}${heavy}`
}

/** Held against what siting asks of a pole for a bank when nothing else is chosen. */
function poleWords({ feeder }: DraftScene, { regulator }: BankWork): string {
  const pole = feeder.poles.find(({ id }) => id === regulator.pole)
  if (pole?.poleClass === undefined) {
    return 'The class of the pole is not recorded: have it looked at before anything is lifted.'
  }
  const reasons = strengthReasons(pole, SiteRequest.parse({}))
  if (reasons.length > 0) return reasons.join(' ')
  return `The pole is recorded as class ${pole.poleClass}; its strength for this load is not computed here.`
}
