import type { DraftJobBody } from '#contract/jobs.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { isBypassed } from '#domain/feeder/is-bypassed.ts'
import { leavesInService, setsUnits } from '#domain/jobs/is-bank-kind.ts'
import type { JobKind } from '#domain/jobs/job-kind.ts'
import { takesBirdWork } from '#domain/jobs/takes-bird-work.ts'
import { Refusal } from './refusal.ts'
import { regulatorsOf, type WantedJob } from './wanted-job.ts'

type ByHand = Extract<DraftJobBody['origin'], { kind: 'by hand' }>

function measuresFor(kind: JobKind, birdWork: DraftJobBody['birdWork']) {
  const isTaken = birdWork === undefined ? takesBirdWork(kind) : birdWork === 'take along'
  return isTaken ? ('cheapest' as const) : []
}

/**
 * What a person asks for by naming poles or a bank that stands.
 *
 * @throws Refusal `malformed-request` for poles, banks or settings that do not fit, `wrong-state` for
 * work that the bank as it stands cannot take
 */
export function wantedByHand(
  feeder: Feeder,
  origin: ByHand,
  birdWork: DraftJobBody['birdWork'],
): WantedJob {
  const { jobKind, poles, regulatorId, settings } = origin
  refuseUnknown(feeder, poles)
  const measures = measuresFor(jobKind, birdWork)
  const wanted = { kind: jobKind, poles: [...new Set(poles)].map((pole) => ({ pole, measures })) }
  switch (jobKind) {
    case 'retrofit round':
    case 'inspection':
      return wanted
    case 'set a bank':
      throw new Refusal(
        'malformed-request',
        'A new bank is drafted from a kept proposal, which says what is to stand there. Keep one first.',
        { faults: [{ at: 'body.origin.jobKind', what: 'needs a proposal' }] },
      )
    default: {
      const standing = standingBank(feeder, regulatorId, poles)
      refuseOtherwiseStanding(jobKind, standing)
      refuseIdleSettings(jobKind, settings)
      return { ...wanted, regulator: toStand(jobKind, standing, settings), standing }
    }
  }
}

/** In service with its settings; new units have serial numbers that nobody knows yet. */
function toStand(kind: JobKind, standing: Regulator, settings: ByHand['settings']): Regulator {
  const { state: _state, ...inService } = standing
  if (!setsUnits(kind)) return { ...inService, ...settings }
  const { serialA: _a, serialB: _b, serialC: _c, ...newUnits } = inService
  return { ...newUnits, ...settings }
}

/** Work that the bank as it stands leaves nothing to do of, or cannot take. */
function refuseOtherwiseStanding(kind: JobKind, standing: Regulator): void {
  const { id } = standing
  const isPast = isBypassed(standing)
  const why =
    kind === 'take a bank out of service' && isPast
      ? `Bank ${id} is out of service already: it is recorded as bypassed.`
      : kind === 'return a bank to service' && !isPast
        ? `Bank ${id} is recorded as in service, so there is nothing to return.`
        : kind === 'change settings' && isPast
          ? `Bank ${id} is recorded as bypassed: its settings are given when it is returned to service.`
          : null
  if (why !== null) throw new Refusal('wrong-state', why)
}

/** A bank that goes or is switched off is left with the settings that it has. */
function refuseIdleSettings(kind: JobKind, settings: ByHand['settings']): void {
  if (leavesInService(kind) || Object.keys(settings ?? {}).length === 0) return
  const detail = `A job to ${kind} leaves no control at work, so it takes no settings.`
  throw new Refusal('malformed-request', detail, {
    faults: [{ at: 'body.origin.settings', what: 'must be left out' }],
  })
}

function standingBank(
  feeder: Feeder,
  regulatorId: string | undefined,
  poles: readonly string[],
): Regulator {
  const standing = regulatorsOf(feeder).find(({ id }) => id === regulatorId)
  if (!standing) {
    throw new Refusal('malformed-request', 'The job is on a bank that stands; name it.', {
      faults: [{ at: 'body.origin.regulatorId', what: 'names no regulator of the feeder' }],
    })
  }
  if (poles.every((pole) => pole === standing.pole)) return standing
  throw new Refusal(
    'malformed-request',
    `The bank ${standing.id} stands at pole ${standing.pole}, so the job is at that pole alone.`,
    { faults: [{ at: 'body.origin.poles', what: `must be ${standing.pole} alone` }] },
  )
}

function refuseUnknown(feeder: Feeder, poles: readonly string[]): void {
  const known = new Set(feeder.poles.map(({ id }) => id))
  const faults = poles.flatMap((pole, index) =>
    known.has(pole)
      ? []
      : [{ at: `body.origin.poles.${index}`, what: 'names no pole of the feeder' }],
  )
  if (faults.length === 0) return
  const detail = `Feeder "${feeder.header.id}" does not have all poles of the job.`
  throw new Refusal('malformed-request', detail, { faults })
}
