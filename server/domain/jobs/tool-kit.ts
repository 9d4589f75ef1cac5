import { lineToLineKv } from '#domain/units/voltage-base.ts'
import { stepV } from './bypass-current.ts'
import type { DraftScene } from './draft-scene.ts'
import { handlesUnits } from './is-bank-kind.ts'
import type { BankWork, KitLine } from './job-plan.ts'
import { finestNeededV } from './neutral-proof.ts'
import { isSwitched } from './sequence-for-bank.ts'
import { SHEAR_HEAD_TORQUE_LB_FT } from './torque.ts'

type Tool = Omit<KitLine, 'for'>

/** Beside what every truck carries: tools that this work asks for. */
export function toolKit(scene: DraftScene): KitLine[] {
  return toolsOf(scene).map((tool) => ({ for: 'tools', ...tool }))
}

function toolsOf(scene: DraftScene): Tool[] {
  const { bank, kind, works } = scene
  const hasMeasures = works.some(({ measures }) => measures.length > 0)
  return [
    ...(bank ? meterTools(bank) : []),
    ...(bank && kind !== 'change settings' ? switchingTools(scene, bank) : []),
    ...(bank && kind !== 'remove a bank'
      ? [{ what: 'Means to read the control and to set it', count: 1 }]
      : []),
    ...(hasMeasures
      ? [
          {
            what: 'Sticks and holders for the covers, where they are set from below',
            count: 1,
            note: 'As the maker of the cover says.',
          },
        ]
      : []),
    ...(kind === 'inspection' ? [{ what: 'Binoculars and a camera', count: 1 }] : []),
  ]
}

function meterTools({ neutralV, regulator }: BankWork): Tool[] {
  const count = regulator.phases.length
  return [
    {
      what: `Voltmeter for ${(neutralV / 1000).toFixed(2)} kV to neutral on sticks that resolves ${Math.floor(finestNeededV(neutralV))} V or finer`,
      count: 1,
      note: `One step is ${stepV(neutralV).toFixed(1)} V here; a meter that cannot show it proves no neutral.`,
    },
    { what: 'Clamp ammeter on a stick', count: 1 },
    {
      what: 'Tag for a tap drive that is inoperative',
      count,
    },
  ]
}

/** A bank that is only taken out of service or returned is switched, and none of its leads is loosed. */
function switchingTools(scene: DraftScene, bank: BankWork): Tool[] {
  const count = bank.regulator.phases.length
  const lineKv = lineToLineKv(bank.neutralV).toFixed(2)
  return [
    { what: 'Stick to work bypass and disconnect switches', count: 1 },
    {
      what: `Rubber gloves and cover-up for ${lineKv} kV`,
      count: 1,
      note: 'Class and tests by your own rules.',
    },
    {
      what: `Tester for ${lineKv} kV, with the means to prove it before and after`,
      count: 1,
    },
    ...lockTools(scene, bank),
    {
      what: `Temporary protective grounds for ${count} ${count === 1 ? 'phase' : 'phases'}`,
      count: 1,
      note: 'Sized for the fault current at the pole, which is not computed here.',
    },
    ...(handlesUnits(scene.kind) ? handlingTools(scene, bank) : []),
  ]
}

/** A unit that is only returned hangs locked and tagged already. */
function lockTools({ kind }: DraftScene, { regulator, standing = regulator }: BankWork): Tool[] {
  if (kind === 'return a bank to service') return []
  const units = regulator.phases.length
  const hasNeutralSwitch = isSwitched(standing) || isSwitched(regulator)
  const switches = hasNeutralSwitch ? 3 : 2
  return [
    {
      what: 'Lock and tag for a switch that is opened',
      count: units * switches,
      note: `Source and load switch${hasNeutralSwitch ? ', and that of the neutral side,' : ''} of each unit.`,
    },
    { what: 'Tag for what carries the line past a unit', count: units },
  ]
}

function handlingTools({ kind, peakA }: DraftScene, { neutralV, regulator }: BankWork): Tool[] {
  const count = regulator.phases.length
  const lineKv = lineToLineKv(neutralV).toFixed(2)
  return [
    { what: `Phasing sticks for ${lineKv} kV`, count: 1 },
    ...(kind === 'change out a bank' ? [jumper(count, peakA, regulator.ratingA, lineKv)] : []),
    {
      what: 'Torque wrench for connectors',
      count: 1,
      note: `Shear-head fasteners ${SHEAR_HEAD_TORQUE_LB_FT.low} to ${SHEAR_HEAD_TORQUE_LB_FT.high} lb-ft (common practice, no source); the marking on the connector governs.`,
    },
    { what: 'Lifting gear for the weight of a unit', count: 1, note: 'By its nameplate.' },
  ]
}

function jumper(
  count: number,
  peakA: number | null,
  ratingA: number | undefined,
  lineKv: string,
): Tool {
  const amps = Math.max(peakA ?? 0, ratingA ?? 0)
  return {
    what:
      amps > 0
        ? `Temporary jumper rated for ${lineKv} kV and at least ${Math.ceil(amps)} A`
        : `Temporary jumper rated for ${lineKv} kV and the current of the line`,
    count,
    note:
      peakA === null
        ? 'The current at peak could not be computed; read it off first.'
        : `Highest current expected: ${peakA.toFixed(0)} A.`,
  }
}
