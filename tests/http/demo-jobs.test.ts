import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { routes } from '#contract/routes.ts'
import { freshDatabase } from '../support/fresh-database.ts'
import { CREW, SUPERVISOR, startTestServer } from './test-server.ts'

const geodataFolder = fileURLToPath(new URL('../../geodata', import.meta.url))

it('gives the first visit of the demo jobs to look at, once, and never again', async () => {
  const dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-demo-jobs-'))
  const fresh = await freshDatabase()
  const { databaseUrl } = fresh
  const start = () =>
    startTestServer({ geodataFolder, dataFolder, ...(databaseUrl && { databaseUrl }) })
  try {
    const first = await start()
    const jobs = await first.call(routes.listJobs, {}, CREW)
    expect(jobs.map(({ kind, state, feederId }) => [kind, state, feederId])).toEqual([
      ['retrofit round', 'issued', 'thimble'],
      ['change settings', 'issued', 'skillet'],
      ['inspection', 'drafted', 'skillet'],
    ])
    const today = new Date().toISOString().slice(0, 10)
    expect(jobs.every(({ dueOn = '' }) => dueOn > today)).toBe(true)
    for (const job of jobs) {
      const params = { jobId: job.id }
      const { plan } = (await first.call(routes.getJob, { params }, CREW)).job
      expect(plan.kit.length + plan.hazards.length).toBeGreaterThan(0)
      if (job.kind === 'retrofit round') {
        expect(plan.poles.every(({ measures }) => measures.length > 0)).toBe(true)
      }
      if (job.kind === 'change settings') {
        expect(plan.bank).toMatchObject({
          standing: { bandCentreV: 124 },
          regulator: { bandCentreV: 123 },
        })
        expect(plan.expected.length).toBeGreaterThan(0)
      }
      const query = { version: job.version }
      await first.call(routes.deleteJob, { params, query }, SUPERVISOR)
    }
    await first.stop()
    const second = await start()
    expect(await second.call(routes.listJobs, {}, CREW)).toEqual([])
    await second.stop()
  } finally {
    await fresh.drop()
    await rm(dataFolder, { recursive: true, force: true })
  }
})
