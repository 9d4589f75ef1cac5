import { lineToLineKv } from '#domain/units/voltage-base.ts'
import type { Regulator } from '../feeder/equipment.ts'
import { unitClassFor } from '../siting/choose-unit.ts'
import { ARRESTER_SOURCE, arresterClass } from './arrester-class.ts'
import type { DraftScene } from './draft-scene.ts'
import type { BankWork, KitLine } from './job-plan.ts'
import { shortNumber } from './short-number.ts'
import { unitWeight, weightInWords } from './unit-weight.ts'

type Line = Omit<KitLine, 'pole'>

/** Units, switches, arresters, connectors and grounding of the bank. */
export function bankKit(scene: DraftScene): KitLine[] {
  const { bank } = scene
  if (!bank) return []
  return linesOf(scene, bank).map((line) => ({ ...line, pole: bank.regulator.pole }))
}

function linesOf(scene: DraftScene, bank: BankWork): Line[] {
  const count = bank.regulator.phases.length
  switch (scene.kind) {
    case 'set a bank':
      return [
        ...unitLines(bank, count),
        mountingLine(scene, bank),
        ...switchLines(bank, count),
        arresterLine(bank, count),
        connectorLine(scene, bank, count),
        ...groundingLines(count),
      ]
    case 'change out a bank':
      return [
        ...unitLines(bank, count),
        ...changedNeutralSide(bank, count),
        connectorLine(scene, bank, count),
        {
          for: 'other',
          what: 'Switches, arresters, mounting and grounding that stand',
          count: 1,
          note: 'Used again if sound. What is not sound shows at the pole: look before the day of the work.',
        },
      ]
    case 'remove a bank':
      return [
        {
          for: 'bank',
          what: 'Conductor and connectors to carry the line through',
          count,
          note: `${conductorWords(scene, bank)} Not needed where the bypass stays closed as the way of the line.`,
        },
      ]
    case 'take a bank out of service':
      return [
        {
          for: 'switching',
          what: 'Tag for a unit that stays bypassed',
          count,
          note: 'For its switches and its control: bypass closed, the others open. It stays until the bank is returned to service. Wording and locks by your own rules.',
        },
      ]
    case 'return a bank to service':
    case 'change settings':
    case 'retrofit round':
    case 'inspection':
      return []
  }
}

function unitLines({ neutralV, regulator }: BankWork, count: number): Line[] {
  return [
    {
      for: 'bank',
      what: `Regulator unit, ${ratingWords(regulator)}, type ${regulator.windingType}, ±10 % in 32 steps`,
      count,
      note: unitNote(neutralV, regulator),
    },
    {
      for: 'bank',
      what: 'Control cabinet with its cable',
      count,
      note: `Potential ratio ${shortNumber(regulator.ptRatio)} : 1, current transformer ${regulator.ctPrimaryA} A. Communication is not recorded here.`,
    },
  ]
}

function ratingWords({ ratingA, ratingKva }: Regulator): string {
  if (ratingKva === undefined && ratingA === undefined) return 'rating not recorded'
  return [
    ...(ratingKva === undefined ? [] : [`${ratingKva} kVA`]),
    ...(ratingA === undefined ? [] : [`${ratingA} A`]),
  ].join(', ')
}

function unitNote(neutralV: number, { ratingA }: Regulator): string {
  const found = unitClassFor(neutralV)
  const ratedKv = found ? `Class of ${found.ratedKv} kV. ` : ''
  const weight = found && ratingA !== undefined ? unitWeight(found.ratedKv, ratingA) : null
  const pounds = weight
    ? `About ${weightInWords(weight)} each; ${weight.source}.`
    : 'Weight not known here: see the nameplate.'
  return `${ratedKv}${pounds} Series arrester across S and L as it comes with the unit (common practice, no source).`
}

function mountingLine({ sites }: DraftScene, { regulator }: BankWork): Line {
  const chosen = sites.get(regulator.pole)?.choice?.regulatorMounting
  return {
    for: 'bank',
    what: chosen === undefined ? 'Platform or pole brackets' : MOUNTINGS[chosen],
    count: 1,
    note:
      chosen === undefined
        ? 'How the units are mounted is not recorded; choose it on the pole top.'
        : 'As chosen on the pole top.',
  }
}

const MOUNTINGS = { platform: 'Platform', 'on the pole': 'Pole brackets for the units' } as const

function switchLines({ neutralV, regulator }: BankWork, count: number): Line[] {
  const lineKv = lineToLineKv(neutralV).toFixed(2)
  const amps = regulator.ratingA === undefined ? '' : `, at least ${regulator.ratingA} A`
  const rating = `for ${lineKv} kV${amps}`
  return [
    { for: 'switching', what: `Bypass switch, ${rating}`, count },
    {
      for: 'switching',
      what: `Disconnect switch, source and load, ${rating}`,
      count: 2 * count,
      note: 'Two for each unit.',
    },
    ...(regulator.neutralSide === 'switched' ? [neutralSwitch(count)] : []),
  ]
}

function neutralSwitch(count: number): Line {
  return {
    for: 'switching',
    what: 'Neutral-side switch',
    count,
    note: 'One for each unit, between its SL terminal and the neutral.',
  }
}

/** What the old units have not: a switch at the SL terminal, or the solid lead in its place. */
function changedNeutralSide({ regulator, standing }: BankWork, count: number): Line[] {
  const isSwitched = regulator.neutralSide === 'switched'
  if (!standing || isSwitched === (standing.neutralSide === 'switched')) return []
  if (isSwitched) return [neutralSwitch(count)]
  return [
    {
      for: 'bank',
      what: 'Lead from SL terminal to neutral',
      count,
      note: 'In place of the neutral-side switch that stands: the new units have none.',
    },
  ]
}

function arresterLine({ neutralV }: BankWork, count: number): Line {
  const lineKv = lineToLineKv(neutralV)
  const found = arresterClass(lineKv)
  return {
    for: 'bank',
    what: found
      ? `Arrester, ${found.dutyCycleKv} kV (${found.continuousKv} kV continuous)`
      : 'Arrester',
    count: 2 * count,
    note: found
      ? `One on the source and one on the load side of each unit; ${ARRESTER_SOURCE}.`
      : `One on the source and one on the load side of each unit. Its class for ${lineKv.toFixed(2)} kV is not known here: ask the utility.`,
  }
}

function connectorLine(scene: DraftScene, bank: BankWork, count: number): Line {
  return {
    for: 'bank',
    what: 'Connector from lead to line, source and load side',
    count: 2 * count,
    note: `${conductorWords(scene, bank)} Leads to the terminals as the unit asks for.`,
  }
}

/** Conductor of the phases on the span, where the line type says it. */
function conductorWords({ feeder }: DraftScene, { regulator }: BankWork): string {
  const lineTypeId = feeder.spans.find(({ id }) => id === regulator.span)?.lineType
  const lineType = feeder.header.lineTypes.find(({ id }) => id === lineTypeId)
  const conductors =
    lineType?.kind === 'geometry'
      ? [
          ...new Set(
            lineType.positions.filter(({ role }) => role !== 'N').map((each) => each.conductor),
          ),
        ]
      : []
  return conductors.length === 0
    ? 'The conductor of the line is not recorded: measure it.'
    : `For ${conductors.join(' and ')}.`
}

function groundingLines(count: number): Line[] {
  return [
    {
      for: 'bank',
      what: 'Ground rod with its connector',
      count: 1,
      note: 'More where the standard of the utility asks for it.',
    },
    {
      for: 'bank',
      what: 'Bond from tank and control cabinet to the neutral',
      count,
    },
  ]
}
