import type { DraftJobBody, JobHead, JobOrigin } from '#contract/jobs.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { draftJob } from './draft-job.ts'
import type { Job } from './job-ports.ts'
import type { Actor, Ports } from './ports.ts'

/** In the history, for what no person of the demo drafted. */
const DEMO = 'came-with-the-feeder'
const PLANNER: Actor = { id: DEMO, role: 'planner' }
const SUPERVISOR: Actor = { id: DEMO, role: 'supervisor' }

const DAY_MS = 24 * 60 * 60 * 1000

interface DemoJob {
  readonly feederId: string
  readonly head: Omit<JobHead, 'dueOn'>
  readonly dueInDays: number
  readonly origin: Extract<JobOrigin, { kind: 'by hand' }>
  /** Where it goes from the draft. */
  readonly moves: readonly JobState[]
}

/** Invented work on the invented feeders, so that no list of a first visit is empty. */
const DEMO_JOBS: readonly DemoJob[] = [
  {
    feederId: 'thimble',
    head: {
      title: 'Cover four transformer poles',
      note: 'Invented for the demo. Bring covers for bushings, arresters and jumpers.',
      crew: 'north truck',
    },
    dueInDays: 5,
    origin: {
      kind: 'by hand',
      jobKind: 'retrofit round',
      poles: ['T-17', 'T-18', 'T-19', 'T-20'],
    },
    moves: ['approved', 'issued'],
  },
  {
    feederId: 'skillet',
    head: {
      title: 'Set the Anvil regulators to 123 V',
      note: 'Invented for the demo. The end of the line is high at noon.',
      crew: 'south truck',
    },
    dueInDays: 9,
    origin: {
      kind: 'by hand',
      jobKind: 'change settings',
      poles: ['S-144'],
      regulatorId: 'regulator-S-144',
      settings: { bandCentreV: 123 },
    },
    moves: ['approved', 'issued'],
  },
  {
    feederId: 'skillet',
    head: {
      title: 'Look at the poles beside the eagle of last autumn',
      note: 'Invented for the demo.',
      crew: '',
    },
    dueInDays: 21,
    origin: { kind: 'by hand', jobKind: 'inspection', poles: ['S-204', 'S-205', 'S-206'] },
    moves: [],
  },
]

/**
 * Drafts a few jobs on the feeders of the demo, once: where the record ever held a job, or holds none
 * of these feeders, nothing is done.
 */
export async function draftDemoJobs(
  ports: Pick<Ports, 'store' | 'threads' | 'clock' | 'newId'>,
): Promise<void> {
  const { store } = ports
  const known = new Set((await store.feeders.list()).map(({ id }) => id))
  const wanted = DEMO_JOBS.filter(({ feederId }) => known.has(feederId))
  const hasHeldJobs = async () => (await store.history.count({ subject: 'job' })) > 0
  if (wanted.length === 0 || (await hasHeldJobs())) return
  const drafts = await Promise.all(wanted.map((job) => draftJob(ports, ...bodyOf(job, ports))))
  await store.together(async () => {
    // Another server of the same database may have been first.
    if (await hasHeldJobs()) return
    for (const [index, draft] of drafts.entries()) {
      const job = await store.jobs.add(draft, { actor: PLANNER, at: ports.clock() })
      await moveOn(ports, job, wanted[index]?.moves ?? [])
    }
  })
}

function bodyOf(
  { feederId, head, dueInDays, origin }: DemoJob,
  { clock }: Pick<Ports, 'clock'>,
): [string, DraftJobBody] {
  const due = new Date(Date.parse(clock()) + dueInDays * DAY_MS)
  return [feederId, { ...head, dueOn: due.toISOString().slice(0, 10), origin, bank: 0 }]
}

async function moveOn(
  { store, clock }: Pick<Ports, 'store' | 'clock'>,
  job: Job,
  moves: readonly JobState[],
): Promise<void> {
  let { version } = job
  for (const state of moves) {
    const moved = { state, reason: '', feederVersionAfter: null }
    await store.jobs.move(job.id, version, moved, { actor: SUPERVISOR, at: clock() })
    version += 1
  }
}
