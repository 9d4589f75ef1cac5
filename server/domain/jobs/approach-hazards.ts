import { phasesOfMask } from '#domain/units/phases.ts'
import { lineToLineKv, lineToNeutralV } from '#domain/units/voltage-base.ts'
import { nominalVolts } from '../network/nominal-volts.ts'
import { type ApproachDistance, approachDistance, type Exposure } from './approach-distance.ts'
import type { DraftScene } from './draft-scene.ts'
import type { Hazard } from './job-plan.ts'

const MOST_NAMED = 5

/** Minimum approach distances, once for all poles of the same voltage. */
export function approachHazards(scene: DraftScene): Hazard[] {
  const polesBy = new Map<string, { readonly system: System; readonly poles: string[] }>()
  for (const { pole } of scene.works) {
    const system = systemAt(scene, pole)
    const key = `${system.lineKv.toFixed(2)} ${system.isSinglePhase}`
    const found = polesBy.get(key)
    if (found) found.poles.push(pole)
    else polesBy.set(key, { system, poles: [pole] })
  }
  const isOneForAll = polesBy.size === 1
  return [...polesBy.values()].map(({ system, poles }) => {
    const [first] = poles
    return {
      about: 'approach',
      what: `${isOneForAll ? '' : `${named(poles)}: `}${distanceWords(system, scene.bank?.elevationM)}`,
      ...(poles.length === 1 && first !== undefined && { pole: first }),
      source: sourceOf(system),
    }
  })
}

interface System {
  readonly lineKv: number
  readonly isSinglePhase: boolean
}

/** The highest voltage and all phases that meet at the pole. */
function systemAt({ feeder, trace }: DraftScene, pole: string): System {
  const nominalV = nominalVolts(feeder, trace)
  const sourceV = lineToNeutralV(feeder.header.nominalKv)
  const own = trace.spans.flatMap((traced, index) => {
    if (traced.nearPole !== pole && traced.farPole !== pole) return []
    // A transformer at the near end has the voltage of the span before it on its high side.
    const before = traced.parent < 0 ? sourceV : (nominalV[traced.parent] ?? sourceV)
    const after = nominalV[index] ?? sourceV
    return [
      { mask: traced.mask, volts: traced.nearPole === pole ? Math.max(before, after) : after },
    ]
  })
  const mask = own.reduce((all, each) => all | each.mask, 0)
  const neutralV = own.length > 0 ? Math.max(...own.map(({ volts }) => volts)) : sourceV
  return {
    lineKv: lineToLineKv(neutralV),
    isSinglePhase: phasesOfMask(mask).length === 1,
  }
}

/**
 * Table R-6 goes by volts from phase to phase, on single-phase systems by those to ground (seen in a
 * secondary source): so a tap of one phase off a line of 24.94 kV has the row of its 14.40 kV.
 */
function distancesOf(system: System, elevationM?: number) {
  const at = (systemKv: number, exposure: Exposure) =>
    approachDistance({ systemKv, exposure, elevationM })
  const { lineKv, isSinglePhase } = system
  return isSinglePhase
    ? {
        toGround: at(groundKv(system), 'phase to ground'),
        toPhase: null,
        ofLine: at(lineKv, 'phase to ground'),
      }
    : {
        toGround: at(lineKv, 'phase to ground'),
        toPhase: at(lineKv, 'phase to phase'),
        ofLine: null,
      }
}

function groundKv({ lineKv }: System): number {
  return lineToNeutralV(lineKv) / 1000
}

function distanceWords(system: System, elevationM: number | undefined): string {
  const { ofLine, toGround, toPhase } = distancesOf(system, elevationM)
  const name = system.isSinglePhase
    ? `a single-phase tap of ${groundKv(system).toFixed(2)} kV to ground`
    : `${system.lineKv.toFixed(2)} kV`
  if (toGround.status === 'not known') return `Minimum approach distance: ${toGround.why}`
  const phase = toPhase?.status === 'known' ? `, ${inWords(toPhase)} phase to phase` : ''
  // The larger one stands beside it, since a utility may go by the line that the tap comes from.
  const isLarger = ofLine?.status === 'known' && ofLine.distanceM > toGround.distanceM
  return [
    `Minimum approach distance at ${name}: ${inWords(toGround)} phase to ground${phase}.`,
    ...(isLarger
      ? [
          `Where your rules go by the ${system.lineKv.toFixed(2)} kV of the line that it comes from, ${inWords(ofLine)}.`,
        ]
      : []),
    ...toGround.notes,
    'The utility’s own distances govern.',
  ].join(' ')
}

function inWords({ distanceFt, distanceM }: Extract<ApproachDistance, { status: 'known' }>) {
  return `${distanceFt.toFixed(2)} ft (${distanceM.toFixed(2)} m)`
}

function sourceOf(system: System): string {
  const { toGround } = distancesOf(system)
  return toGround.status === 'known' ? toGround.source : '29 CFR 1910.269 (2014), Table R-6'
}

function named(poles: readonly string[]): string {
  const more = poles.length - MOST_NAMED
  const names = poles.slice(0, MOST_NAMED).join(', ')
  return `${poles.length === 1 ? 'Pole' : 'Poles'} ${names}${more > 0 ? ` and ${more} more` : ''}`
}
