import type { Network } from '#domain/electrical/network.ts'
import { type Complex, magnitude } from '#domain/units/complex.ts'
import type { CompensationFigures, SettingsOutcome, SettingsReason } from '../site-result.ts'
import type { Study } from '../study.ts'
import type { Compensation } from './candidate-settings.ts'
import { equivalentImpedance, type PhaseReading } from './equivalent-impedance.ts'
import { settingsInWords } from './settings-in-words.ts'
import type { ChosenSettings, Tried } from './work-out-settings.ts'

/** The settings of a bank as they are reported: why, what they give, and the figures behind R and X. */
export function settingsReason(study: Study, settings: ChosenSettings): SettingsReason {
  const { chosen, plain, tried } = settings
  const { compensation } = chosen.candidate
  const caseId = study.cases[study.heaviest]?.id ?? ''
  return {
    why: settingsInWords(study, settings),
    chosen: outcomeOf(chosen),
    plain: outcomeOf(plain),
    tried,
    ...(compensation && { compensation: figuresOf(study.network, compensation, caseId) }),
  }
}

function outcomeOf({ candidate, score }: Tried): SettingsOutcome {
  return {
    ...candidate.settings,
    customersOutside: score.outside,
    customersOutsideAtEdges: score.outsideAtEdges,
    marginVolts120: score.marginV,
    meanMarginVolts120: score.meanMarginV,
    meanLossKw: score.meanLossKw,
  }
}

function figuresOf(
  { nodePoleIds }: Network,
  { full, kind, node, ohms, readings, share }: Compensation,
  caseId: string,
): CompensationFigures {
  return {
    loadCentre: nodePoleIds[node] ?? '',
    kind,
    caseId,
    phases: Object.fromEntries([...readings].map(([phase, reading]) => [phase, inPolar(reading)])),
    rOhm: ohms.re,
    xOhm: ohms.im,
    fullRV: full.rV,
    fullXV: full.xV,
    share,
  }
}

function inPolar(reading: PhaseReading) {
  const { bankV, centreV, lineA } = reading
  const ohms = equivalentImpedance(reading)
  return {
    bankV: magnitude(bankV),
    bankDeg: degrees(bankV),
    centreV: magnitude(centreV),
    centreDeg: degrees(centreV),
    lineA: magnitude(lineA),
    lineDeg: degrees(lineA),
    rOhm: ohms.re,
    xOhm: ohms.im,
  }
}

function degrees({ re, im }: Complex): number {
  return (Math.atan2(im, re) * 180) / Math.PI
}
