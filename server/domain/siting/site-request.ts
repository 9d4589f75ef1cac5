import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'

/** Money behind the ranking. Every default is an assumption to be replaced by the utility's own. */
export const SitingMoney = z.object({
  /** Value of a kilowatt-hour lost. */
  energyUsdPerKwh: z.number().min(0).default(0.06),
  /** Installed cost of a bank: a part per bank and a part per unit. */
  bankUsd: z.number().min(0).default(40_000),
  unitUsd: z.number().min(0).default(20_000),
  /** Moving one single-phase service transformer with its service to another pole. */
  transformerMoveUsd: z.number().min(0).default(6_000),
  studyYears: z.number().int().min(1).max(60).default(20),
  discountRatePct: z.number().min(0).max(30).default(7),
})

export const SiteRequest = z.object({
  banks: z.union([z.literal(1), z.literal(2)]).default(1),
  /** `service`: customers outside limits first, then cost. `loss`: least loss with no node above the high limit. */
  goal: z.enum(['service', 'loss']).default('service'),
  /** `controlled`: taps follow the control. `search`: one common tap of each bank is a free variable. */
  taps: z.enum(['controlled', 'search']).default('controlled'),
  /** Primary limits on the 120 V base; the feeder's own when left out. */
  lowVolts120: z.number().min(0).optional(),
  highVolts120: z.number().positive().optional(),
  /** Cases to judge; all when left out. */
  caseIds: z.array(Id).min(1).optional(),
  /** Month of the work, 1 to 12; decides which nest seasons count. Left out: any season counts. */
  workMonth: z.number().int().min(1).max(12).optional(),
  /** Farthest that a pole may stand from a road or track, metres. */
  accessWithinM: z.number().positive().default(150),
  /** Shortest pole (40 ft) and weakest class that may carry a bank. */
  leastPoleHeightM: z.number().min(0).default(12.19),
  weakestPoleClass: z.number().int().min(1).max(10).default(4),
  /**
   * A pole with a single-phase service transformer: `rule out`, or `caution` with the cost of moving
   * it (`money.transformerMoveUsd`). Larger transformers always rule a pole out.
   */
  serviceTransformers: z.enum(['rule out', 'caution']).default('rule out'),
  /** Sharpest turn of the line at a pole that may carry a bank, degrees. */
  mostLineAngleDeg: z.number().min(0).max(180).default(20),
  /** Screen conditions are for real poles; published feeders have none recorded. */
  phases: z.enum(['three-phase', 'any']).default('three-phase'),
  windingType: z.enum(['A', 'B']).default('B'),
  bandCentreV: z.number().min(100).max(140).default(124),
  bandwidthV: z.number().min(1).max(10).default(2),
  delayS: z.number().min(0).default(45),
  /**
   * `worked out`: band centre, R and X of each bank that is kept in the answer are worked out from
   * the load cases. `none`: the band centre as asked for, without line-drop compensation.
   */
  compensation: z.enum(['worked out', 'none']).default('worked out'),
  /** Spare current above the highest of all cases, percent. */
  ratingMarginPct: z.number().min(0).max(200).default(25),
  money: SitingMoney.default(SitingMoney.parse({})),
  /** Neighbouring placements whose loss differs by less than this count as the same result, percent. */
  sameWithinPct: z.number().min(0).max(50).default(2),
  maxProposals: z.number().int().min(1).max(50).default(7),
})
export type SitingMoney = z.infer<typeof SitingMoney>
export type SiteRequest = z.infer<typeof SiteRequest>
