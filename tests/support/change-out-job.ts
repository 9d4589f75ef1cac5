import type { DemoRole } from '#contract/account.ts'
import type { Job } from '#contract/jobs.ts'
import type { Regulator } from '#domain/feeder/equipment.ts'
import type { Feeder } from '#domain/feeder/feeder.ts'
import type { JobState } from '#domain/jobs/job-state.ts'
import { layersOfFeeder } from '../../server/layer-files/layers-of-feeder.ts'
import { bankedFeeder } from './banked-feeder.ts'
import { enterDemo } from './enter-demo.ts'

/** Asks a running server as one of the people of the demo; throws for everything but a good answer. */
export type AskAs = <Answer>(
  role: DemoRole,
  path: string,
  method?: string,
  body?: unknown,
) => Promise<Answer>

export function askAs(url: string): AskAs {
  const cookies = new Map<DemoRole, string>()
  return async (role, path, method = 'GET', body) => {
    const cookie = cookies.get(role) ?? (await enterDemo(url, role))
    cookies.set(role, cookie)
    const answer = await fetch(url + path, {
      method,
      headers: { cookie, 'content-type': 'application/json' },
      ...(body !== undefined && { body: JSON.stringify(body) }),
    })
    if (!answer.ok) throw new Error(`${method} ${path}: ${await answer.text()}`)
    return answer.json()
  }
}

/** The banked feeder with one unit in its bank: each step of the work is done once. */
export function oneUnitFeeder(id: string): Feeder {
  const feeder = bankedFeeder(id)
  const equipment = feeder.equipment.map((item) => ({ ...item, phases: 'B' }) as Regulator)
  return { ...feeder, equipment }
}

export async function moveJob(ask: AskAs, jobId: string, ...states: JobState[]): Promise<Job> {
  let { job } = await ask<{ job: Job }>('supervisor', `/api/jobs/${jobId}`)
  for (const to of states) {
    const body = { version: job.version, to }
    job = await ask<Job>('supervisor', `/api/jobs/${jobId}/move`, 'POST', body)
  }
  return job
}

/** Takes a feeder in and issues a job to change its bank out, with the bird work of its pole. */
export async function issueChangeOut(ask: AskAs, feeder: Feeder): Promise<Job> {
  const feederId = feeder.header.id
  await ask('planner', '/api/feeders', 'POST', { layers: layersOfFeeder(feeder) })
  const drafted = await ask<Job>('planner', `/api/feeders/${feederId}/jobs`, 'POST', {
    title: 'Change the bank at P3',
    loopOhm: 0.1,
    origin: {
      kind: 'by hand',
      jobKind: 'change out a bank',
      poles: ['P3'],
      regulatorId: 'R3',
    },
  })
  return moveJob(ask, drafted.id, 'approved', 'issued')
}
