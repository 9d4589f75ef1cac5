import { z } from 'zod'
import type { KitLine } from '#domain/jobs/job-plan.ts'
import { keptOnDevice } from '../work/kept-on-device.ts'

/** What of the kit of a job is on the truck, by job; it stays on this device. */
const checks = keptOnDevice('kit', z.array(z.string()))

export function useKitChecks(jobId: string): ReadonlySet<string> {
  return new Set(checks.use(jobId) ?? [])
}

export function checkKit(jobId: string, line: KitLine, isThere: boolean): void {
  const others = (checks.get(jobId) ?? []).filter((key) => key !== keyOfKit(line))
  checks.keep(jobId, isThere ? [...others, keyOfKit(line)] : others)
}

export function keyOfKit({ for: group, what, pole, note }: KitLine): string {
  return [group, what, pole, note].join('|')
}
