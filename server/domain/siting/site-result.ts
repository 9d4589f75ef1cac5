import { z } from 'zod'
import { PhaseName, PhaseSetName } from '#domain/feeder/phases.ts'

const Extreme = z.object({ volts120: z.number(), node: z.string(), phase: PhaseName })

export const CaseEffect = z.object({
  lossKw: z.number(),
  customersOutside: z.number().int(),
  lowest: Extreme,
  highest: Extreme,
})

export const Effect = z.object({ cases: z.record(z.string(), CaseEffect) })

const TapsByPhase = z.partialRecord(PhaseName, z.number().int())

/** Settings of one bank and what they give; sums and means are over all cases. */
export const SettingsOutcome = z.object({
  bandCentreV: z.number(),
  /** Volts on the 120 base at the rated primary current of the current transformer. */
  rV: z.number(),
  xV: z.number(),
  customersOutside: z.number().int(),
  /** With every unit of the bank resting at the edge of its band that is worse. */
  customersOutsideAtEdges: z.number().int(),
  /** Least distance from a limit of a customer behind the bank, at those edges; negative outside. */
  marginVolts120: z.number(),
  /** The same, weighted by the hours of the cases. */
  meanMarginVolts120: z.number(),
  meanLossKw: z.number(),
})

/** Phasors of one phase and the impedance that follows: (bank volts − load centre volts) / amperes. */
export const PhaseImpedance = z.object({
  bankV: z.number(),
  bankDeg: z.number(),
  centreV: z.number(),
  centreDeg: z.number(),
  lineA: z.number(),
  lineDeg: z.number(),
  rOhm: z.number(),
  xOhm: z.number(),
})

/** Where R and X of a compensator come from. */
export const CompensationFigures = z.object({
  loadCentre: z.string(),
  kind: z.enum(['lowest customer', 'middle of the load', 'end of the zone']),
  caseId: z.string(),
  phases: z.partialRecord(PhaseName, PhaseImpedance),
  /** Mean of the phases. */
  rOhm: z.number(),
  xOhm: z.number(),
  /** The same as volts of the control, before it was held back and rounded. */
  fullRV: z.number(),
  fullXV: z.number(),
  /** Share of it that is set. */
  share: z.number(),
})

/** Why a bank has the settings that it has, beside what plain ones would have given. */
export const SettingsReason = z.object({
  /** In two or three sentences. */
  why: z.string(),
  chosen: SettingsOutcome,
  plain: SettingsOutcome,
  /** Other settings that were tried. */
  tried: z.number().int(),
  compensation: CompensationFigures.optional(),
})

export const ProposedBank = z.object({
  pole: z.string(),
  span: z.string(),
  phases: PhaseSetName,
  /** One single-phase unit of the bank. */
  ratingKva: z.number(),
  ratingA: z.number(),
  /** Highest current of any phase in any case. */
  peakA: z.number(),
  distanceM: z.number(),
  bandCentreV: z.number(),
  bandwidthV: z.number(),
  delayS: z.number(),
  windingType: z.enum(['A', 'B']),
  ptRatio: z.number(),
  ctPrimaryA: z.number(),
  /** Line-drop compensation, volts at `ctPrimaryA`; left out in proposals kept before it was worked out: none. */
  rV: z.number().optional(),
  xV: z.number().optional(),
  /** Left out where the settings are those asked for. */
  settings: SettingsReason.optional(),
  taps: z.record(z.string(), TapsByPhase),
})

export const Proposal = z.object({
  rank: z.number().int(),
  banks: z.array(ProposedBank).min(1).max(2),
  after: Effect,
  /** Why this one, in one to three sentences. */
  reason: z.string(),
  /** Short warnings: "126.0 V at light load, 0.1 V below the limit". */
  flags: z.array(z.string()),
  /** Least distance of any node from a limit over all cases, volts on the 120 base; negative outside. */
  marginVolts120: z.number(),
  energyLossKwhPerYear: z.number(),
  lossSavedUsdPerYear: z.number(),
  costUsd: z.number(),
  /** Cost of the bank less present worth of losses saved. */
  presentWorthUsd: z.number(),
  /** Poles whose result is nearly the same. */
  nearAlternatives: z.array(z.string()),
})

/** How every tried pole did, for shading the line. */
export const CandidateScore = z.object({
  pole: z.string(),
  span: z.string(),
  customersOutside: z.number().int(),
  lowestVolts120: z.number(),
  lossKw: z.number(),
})

export const ExcludedPole = z.object({ pole: z.string(), reasons: z.array(z.string()).min(1) })

/** What the screen found at every primary pole, whether it stayed in or not. */
export const ScreenedPole = z.object({
  pole: z.string(),
  isEligible: z.boolean(),
  /** Along the line from the source, metres; null where no line reaches the pole. */
  distanceM: z.number().nullable(),
  /** To the nearest road or track, metres; null where none is recorded or positions are a scheme. */
  accessM: z.number().nullable(),
  /** Phases carried onward from the pole; null at the end of a line. */
  phases: PhaseSetName.nullable(),
  /** Load beyond the pole in the heaviest case, and the same times its distance from the pole. */
  downstreamKva: z.number(),
  downstreamKvaKm: z.number(),
})

/** A bank that stands bypassed, and what returning it to service alone would do. */
export const BypassedBank = z.object({
  id: z.string(),
  pole: z.string(),
  /** In two or three sentences. */
  words: z.string(),
  /** Left out where the feeder has no settled solution with it. */
  after: Effect.optional(),
})

export const SiteResult = z.object({
  feeder: z.string(),
  before: Effect,
  proposals: z.array(Proposal),
  candidates: z.array(CandidateScore),
  excluded: z.array(ExcludedPole),
  /** Left out where no bank stands bypassed. */
  bypassed: z.array(BypassedBank).optional(),
  screened: z.array(ScreenedPole),
  /** What could not be screened or valued because it is not recorded, and cautions on the whole result. */
  notes: z.array(z.string()),
  /** Number of placements solved. */
  tried: z.number().int(),
  /** What was proven: "all 213 eligible poles tried in 3 cases". */
  proof: z.string(),
})

export type CaseEffect = z.infer<typeof CaseEffect>
export type Effect = z.infer<typeof Effect>
export type SettingsOutcome = z.infer<typeof SettingsOutcome>
export type PhaseImpedance = z.infer<typeof PhaseImpedance>
export type CompensationFigures = z.infer<typeof CompensationFigures>
export type SettingsReason = z.infer<typeof SettingsReason>
export type ProposedBank = z.infer<typeof ProposedBank>
export type Proposal = z.infer<typeof Proposal>
export type ExcludedPole = z.infer<typeof ExcludedPole>
export type ScreenedPole = z.infer<typeof ScreenedPole>
export type CandidateScore = z.infer<typeof CandidateScore>
export type BypassedBank = z.infer<typeof BypassedBank>
export type SiteResult = z.infer<typeof SiteResult>
