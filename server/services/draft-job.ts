import type { DraftJobBody } from '#contract/jobs.ts'
import type { Programme } from '#domain/avian/programme/programme.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import { bankOfProposal } from '#domain/jobs/bank-of-proposal.ts'
import type { PlanInput } from '#domain/jobs/draft-plan.ts'
import { setsUnits } from '#domain/jobs/is-bank-kind.ts'
import { standingAtStart } from '#domain/jobs/pole-work.ts'
import { otherUnits } from '#domain/jobs/same-units.ts'
import { sequenceFor } from '#domain/jobs/sequence-for.ts'
import type { NewJob } from './job-ports.ts'
import { progressOf } from './job-progress.ts'
import type { Ports } from './ports.ts'
import { recordedFeeder } from './recorded-feeder.ts'
import { Refusal } from './refusal.ts'
import { sequencesInUse } from './step-sequences.ts'
import { wantedByHand } from './wanted-by-hand.ts'
import { regulatorsOf, type WantedJob } from './wanted-job.ts'

/** An assumption, and told as one in the plan; the utility's own figure replaces it. */
const ASSUMED_LOOP_OHM = 0.1

type OriginOf<Kind> = Extract<DraftJobBody['origin'], { kind: Kind }>

/**
 * Draws up the whole plan of a job, away from the thread that answers. Nothing is written.
 *
 * @throws Refusal `not-found`, `malformed-request` for poles or banks that are not on the feeder,
 * `wrong-state` where what it comes from is no longer there
 */
export async function draftJob(
  { store, threads, clock, newId }: Pick<Ports, 'store' | 'threads' | 'clock' | 'newId'>,
  feederId: string,
  { origin, bank, loopOhm, elevationM, neutralSide, birdWork, ...head }: DraftJobBody,
): Promise<NewJob> {
  const { feeder, version } = await recordedFeeder(store, feederId)
  const asked = await wantedBy(store, feeder, origin, { bank, birdWork })
  const wanted = withNeutralSide(asked, neutralSide)
  const sequences = await sequencesInUse(store)
  refuseWithoutSequence(wanted, sequences)
  const plan = await threads.draft({
    feeder,
    kind: wanted.kind,
    poles: wanted.poles,
    ...(wanted.regulator && {
      bank: {
        regulator: wanted.regulator,
        ...(wanted.standing && { standing: wanted.standing }),
        loopOhm: loopOhm ?? ASSUMED_LOOP_OHM,
        ...(elevationM !== undefined && { elevationM }),
      },
    }),
    sequences,
    poleTops: await store.poleTops.list(feederId),
    birdSettings: (await store.birdSettings.get()).settings,
    on: clock().slice(0, 10),
    ...(head.dueOn !== undefined && { dueOn: head.dueOn }),
  })
  const isLoopAssumed = plan.bank !== undefined && loopOhm === undefined
  const notes = isLoopAssumed ? [...plan.notes, LOOP_WORDS] : plan.notes
  return {
    id: newId(),
    ...{ feederId, feederVersion: version, head, origin },
    plan: { ...plan, notes },
    stepsAll: progressOf(plan, [], null).stepsAll,
  }
}

const LOOP_WORDS = `The loop that a bypass closes was taken as ${ASSUMED_LOOP_OHM} Ω, which is an assumption; the utility’s own figure replaces it.`

async function wantedBy(
  store: Ports['store'],
  feeder: Feeder,
  origin: DraftJobBody['origin'],
  { bank, birdWork }: Pick<DraftJobBody, 'bank' | 'birdWork'>,
): Promise<WantedJob> {
  switch (origin.kind) {
    case 'proposal':
      return ofProposal(store, feeder, origin, { bank, birdWork })
    case 'programme':
      refuseIdleRound(birdWork)
      return ofRound(store, feeder, origin)
    case 'by hand':
      if (origin.jobKind === 'retrofit round') refuseIdleRound(birdWork)
      return wantedByHand(feeder, origin, birdWork)
  }
}

function refuseIdleRound(birdWork: DraftJobBody['birdWork']): void {
  if (birdWork !== 'leave') return
  const detail = 'A retrofit round is bird work and nothing else: without it there is no job.'
  throw new Refusal('malformed-request', detail, {
    faults: [{ at: 'body.birdWork', what: 'must not be "leave" for a retrofit round' }],
  })
}

/** Units that stand keep what they have. */
function withNeutralSide(wanted: WantedJob, neutralSide: DraftJobBody['neutralSide']): WantedJob {
  const { kind, regulator, standing } = wanted
  if (!regulator || !setsUnits(kind)) return wanted
  const side = neutralSide ?? standing?.neutralSide
  return side === undefined ? wanted : { ...wanted, regulator: { ...regulator, neutralSide: side } }
}

async function ofProposal(
  store: Ports['store'],
  feeder: Feeder,
  { proposalId }: OriginOf<'proposal'>,
  { bank, birdWork }: Pick<DraftJobBody, 'bank' | 'birdWork'>,
): Promise<WantedJob> {
  const saved = await store.proposals.find(proposalId)
  if (!saved || saved.feederId !== feeder.header.id || saved.deletedAt !== null) {
    const detail = `Feeder "${feeder.header.id}" has no kept proposal "${proposalId}".`
    throw new Refusal('not-found', detail)
  }
  const proposed = saved.proposal.banks[bank]
  if (!proposed) {
    throw new Refusal('malformed-request', 'The proposal has no second bank.', {
      faults: [{ at: 'body.bank', what: 'must be 0' }],
    })
  }
  const { pole, span } = proposed
  if (!feeder.spans.some(({ id, from }) => id === span && from === pole)) {
    const detail = `Span ${span} no longer leaves pole ${pole} on the feeder, so the proposal cannot be built as it is. Run siting again.`
    throw new Refusal('wrong-state', detail)
  }
  const standing = regulatorsOf(feeder).find((each) => each.span === span)
  const units = { regulator: bankOfProposal(feeder, proposed), ...(standing && { standing }) }
  const why = otherUnits(units)
  if (why !== null) throw new Refusal('wrong-state', why)
  return {
    kind: standing ? 'change out a bank' : 'set a bank',
    poles: [{ pole, measures: birdWork === 'leave' ? [] : 'cheapest' }],
    ...units,
  }
}

async function ofRound(
  store: Ports['store'],
  feeder: Feeder,
  { programmeId, round }: OriginOf<'programme'>,
): Promise<WantedJob> {
  const feederId = feeder.header.id
  const kept = (await store.programmes.list(feederId)).find(({ id }) => id === programmeId)
  if (!kept) {
    throw new Refusal('not-found', `Feeder "${feederId}" has no programme "${programmeId}".`)
  }
  const poles = polesOfRound(kept.programme, round)
  const known = new Set(feeder.poles.map(({ id }) => id))
  const gone = poles.filter(({ pole }) => !known.has(pole))
  if (gone.length > 0) {
    const names = gone.map(({ pole }) => pole).join(', ')
    const detail = `The feeder no longer has all poles of the round: ${names}. Plan the programme again.`
    throw new Refusal('wrong-state', detail)
  }
  return { kind: 'retrofit round', poles }
}

/** In the order of driving. */
function polesOfRound({ rounds, poles }: Programme, round: number): PlanInput['poles'] {
  const chosen = new Map(poles.map((pole) => [pole.pole, pole]))
  const found = (rounds[round]?.poles ?? []).map((pole) => ({
    pole,
    measures: chosen.get(pole)?.measures ?? [],
  }))
  if (found.length > 0) return found
  const detail = `The programme has ${rounds.length} rounds, and none of the number ${round + 1} with poles in it.`
  throw new Refusal('wrong-state', detail)
}

/** A supervisor may have set the orders of steps so that none is left for a kind of job. */
function refuseWithoutSequence(
  { kind, standing }: WantedJob,
  sequences: PlanInput['sequences'],
): void {
  const atStart = standingAtStart(standing)
  if (sequenceFor(kind, sequences, [], atStart)) return
  const stands = atStart === undefined ? '' : ` where the bank is ${atStart}`
  const detail = `There is no order of steps for the kind of job "${kind}"${stands}. The supervisor sets one.`
  throw new Refusal('wrong-state', detail)
}
