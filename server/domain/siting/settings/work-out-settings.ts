import type { RegulatorBank } from '#domain/electrical/regulator-bank.ts'
import { BASE_VOLTS120 } from '#domain/units/voltage-base.ts'
import type { Examined } from '../examine-placement.ts'
import type { Study } from '../study.ts'
import type { SolvedCase } from '../trial.ts'
import { type CaseBench, tryControlled } from '../trial-bench.ts'
import { type BankZone, zoneOf } from './bank-zone.ts'
import {
  type Candidate,
  type ControlSettings,
  compensatedCandidates,
  isAlike,
  isSame,
  plainCandidates,
  type SettingsGround,
} from './candidate-settings.ts'
import { loadCentres } from './load-centres.ts'
import { readPhases } from './read-phases.ts'
import { judgeSettings, type SettingsInCase } from './settings-verdict.ts'
import { isBetter, type SettingsScore, scoreOf } from './settings-worth.ts'

/** A customer outside with plain settings may be outside by so much more, per unit: 0.1 V. */
const SAME_PU = 0.1 / BASE_VOLTS120
/** A voltage this close to a limit, per unit, is on it. */
const ON_LIMIT_PU = 1e-9
const ON_LIMIT_V = 1e-6

/** Why settings were not taken up. */
export type Refusal =
  | { readonly why: 'first customers too high'; readonly caseId: string }
  | { readonly why: 'customer farther outside'; readonly caseId: string }
  | { readonly why: 'more outside at an edge'; readonly caseId: string }
  | { readonly why: 'not settled'; readonly caseId: string }

export interface Tried {
  readonly candidate: Candidate
  readonly score: SettingsScore
  readonly inCases: readonly SettingsInCase[]
}

/** The settings of one bank and what they were chosen over. */
export interface ChosenSettings {
  readonly chosen: Tried
  /** Plain settings with the centre that was asked for. */
  readonly plain: Tried
  /** The best of those that were tried and not worth it; null where there is none. */
  readonly nextBest: Tried | null
  readonly refused: readonly Refusal[]
  readonly tried: number
}

/** One bank among all of a placement, at the settings found so far. */
export interface SettingsTask {
  readonly study: Study
  /** All banks of the placement; `index` is the one to set. */
  readonly banks: readonly RegulatorBank[]
  readonly index: number
  readonly ctPrimaryA: number
  /** The placement as the benches have it solved, where all banks are plain still. */
  readonly solved: Examined | null
}

/**
 * Settings of one bank. Plain ones stay unless others are worth it (`isBetter`); what lifts the
 * first customers above the high limit in any case, or puts any customer farther outside than plain
 * settings do, is refused. Null where plain settings do not settle.
 */
export function workOutSettings(
  task: SettingsTask,
  onTried: (tried: number) => void = () => undefined,
): ChosenSettings | null {
  const { study } = task
  const zone = zoneOf(study.network, study.judge, bankAt(task), others(task))
  const asked: Candidate = {
    settings: { bandCentreV: study.request.bandCentreV, rV: 0, xV: 0 },
    compensation: null,
  }
  const plain = task.solved
    ? readSolved(task, task.solved, zone, asked)
    : tryAll(task, zone, asked, null)
  if ('why' in plain) return null
  const candidates = candidatesOf(task, zone, asked)
  const refused: Refusal[] = []
  let chosen = plain
  let nextBest: Tried | null = null
  candidates.forEach((candidate, at) => {
    const tried = tryAll(task, zone, candidate, plain)
    onTried(at + 1)
    if ('why' in tried) {
      refused.push(tried)
      return
    }
    const isAsPlain = plainness(candidate, asked) <= plainness(chosen.candidate, asked)
    if (isBetter(tried.score, chosen.score, study.request.goal, isAsPlain)) chosen = tried
    else if (!nextBest || isBetter(tried.score, nextBest.score, study.request.goal, true)) {
      nextBest = tried
    }
  })
  return { chosen, plain, nextBest, refused, tried: candidates.length }
}

/** 0 for what was asked for, 1 for another centre, 2 with compensation. */
function plainness({ compensation, settings }: Candidate, asked: Candidate): number {
  if (compensation) return 2
  return isSame(settings, asked.settings) ? 0 : 1
}

function bankAt({ banks, index }: SettingsTask): RegulatorBank {
  const bank = banks[index]
  if (!bank) throw new Error(`Expected a bank at ${index}, got ${banks.length} banks.`)
  return bank
}

function others({ banks, index, study }: SettingsTask): RegulatorBank[] {
  const standing = study.benches[0]?.standing ?? []
  return [...standing, ...banks.filter((_, at) => at !== index)]
}

/** Reads the heaviest case as it was solved last, with plain settings. */
function candidatesOf(task: SettingsTask, zone: BankZone, asked: Candidate): Candidate[] {
  const { ctPrimaryA, study } = task
  const bench = study.benches[study.heaviest]
  if (!bench) return []
  const bank = bankAt(task)
  const ground: SettingsGround = {
    limits: study.limits,
    bandwidthV: bank.settings.bandwidthV,
    ctPrimaryA,
    ptRatio: bank.settings.ptRatio,
  }
  const compensated = loadCentres(bench.sweep, study.judge, bench.pu, zone).flatMap((centre) =>
    compensatedCandidates(ground, {
      ...centre,
      readings: readPhases(bench.sweep, bank, centre.node),
    }),
  )
  const distinct: Candidate[] = [asked]
  for (const candidate of [...plainCandidates(ground), ...compensated]) {
    if (!distinct.some((other) => isAlike(other.settings, candidate.settings)))
      distinct.push(candidate)
  }
  return distinct.slice(1)
}

/** Plain settings as they were examined just now, without solving them again. */
function readSolved(
  { index, study }: SettingsTask,
  { banks, trial }: Examined,
  zone: BankZone,
  candidate: Candidate,
): Tried {
  const inCases = study.benches.map((bench, at) => {
    const solved = trial.cases[at] as SolvedCase
    const bank = banks[index] as RegulatorBank
    return judgeSettings(bench, { ...bank, taps: solved.taps[index] ?? bank.taps }, zone, solved)
  })
  return { candidate, inCases, score: scoreOf(study.cases, inCases) }
}

/** Solves every case, the heaviest first, and leaves at the first that refuses the settings. */
function tryAll(
  task: SettingsTask,
  zone: BankZone,
  candidate: Candidate,
  plain: Tried | null,
): Tried | Refusal {
  const { banks, ctPrimaryA, index, study } = task
  const set = setBank(bankAt(task), candidate.settings, ctPrimaryA)
  const all = banks.map((bank, at) => (at === index ? set : bank))
  const inCases: SettingsInCase[] = []
  for (const at of casesInOrder(study)) {
    const bench = study.benches[at] as CaseBench
    const solved = tryControlled(bench, all)
    if (!solved) return { why: 'not settled', caseId: bench.loadCase.id }
    const inCase = judgeSettings(bench, set, zone, solved)
    const refusal = plain && refusalOf(study, inCase, plain.inCases[at])
    if (refusal) return refusal
    inCases[at] = inCase
  }
  return { candidate, inCases, score: scoreOf(study.cases, inCases) }
}

function refusalOf(
  { limits }: Study,
  inCase: SettingsInCase,
  plain: SettingsInCase | undefined,
): Refusal | null {
  const { beyondPu, caseId, firstCustomerV, outsideAtEdges } = inCase
  if (firstCustomerV > limits.highVolts120 + ON_LIMIT_V) {
    return { why: 'first customers too high', caseId }
  }
  const isWorse = beyondPu.some((pu, load) => {
    const plainPu = plain?.beyondPu[load] ?? 0
    return pu > (plainPu > ON_LIMIT_PU ? plainPu + SAME_PU : ON_LIMIT_PU)
  })
  if (isWorse) return { why: 'customer farther outside', caseId }
  const isLooser = outsideAtEdges > (plain?.outsideAtEdges ?? 0)
  return isLooser ? { why: 'more outside at an edge', caseId } : null
}

function casesInOrder({ benches, heaviest }: Study): number[] {
  const all = benches.map((_, index) => index)
  return [heaviest, ...all.filter((index) => index !== heaviest)].filter((index) => index >= 0)
}

/** The bank with other settings of its control; positions are its own. */
export function setBank(
  bank: RegulatorBank,
  settings: ControlSettings,
  ctPrimaryA: number,
): RegulatorBank {
  return {
    ...bank,
    settings: { ...bank.settings, ...settings, ctPrimaryA },
    taps: new Int8Array(3),
  }
}
