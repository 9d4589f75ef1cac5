import { z } from 'zod'
import { Id } from '#domain/feeder/identifiers.ts'
import { TakeOutQuery } from './history.ts'

/** A report of the history: of one feeder, or of everything; of a period, or from the beginning. */
export const HistoryReportRequest = z.object({
  as: TakeOutQuery.shape.as,
  feederId: Id.optional(),
  /** First day, in UTC. */
  from: z.iso.date().optional(),
  /** Last day, in UTC. */
  to: z.iso.date().optional(),
})

export const HistoryReportResult = z.object({
  fileName: z.string(),
  entries: z.number().int().min(0),
  sizeBytes: z.number().int().min(0),
  /** SHA-256 of the file (FIPS 180-4), in hexadecimal digits. */
  sha256: z.string(),
})

/** Reports are kept for so many days; they can be made again at any time. */
export const REPORT_DAYS = 30

export type HistoryReportRequest = z.output<typeof HistoryReportRequest>
export type HistoryReportResult = z.infer<typeof HistoryReportResult>
