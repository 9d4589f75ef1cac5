import { spawn } from 'node:child_process'
import { randomUUID } from 'node:crypto'
import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { beforeAll, describe, expect, it } from 'vitest'
import { SiteRequest } from '#domain/siting/site-request.ts'
import { openWork } from '../../server/background/open-work.ts'
import { openThreads } from '../../server/background/threads.ts'
import { workKinds } from '../../server/services/work-kinds.ts'
import { openStore } from '../../server/store/open-store.ts'
import { hasEnded, STAMP, until, workerFile } from '../background/temporary-work.ts'
import { freshDatabase, type TestedKind } from '../support/fresh-database.ts'
import { POSTGRES_VARIABLE } from '../support/postgres-server.ts'
import { smallFeeder } from '../support/small-feeder.ts'
import { buildCli, PROJECT_FOLDER } from './run-cli.ts'

const KINDS: readonly TestedKind[] = process.env[POSTGRES_VARIABLE]
  ? ['SQLite', 'PostgreSQL']
  : ['SQLite']

beforeAll(buildCli, 120_000)

describe('work', () => {
  it.each(KINDS)('does what was asked of a server without workers, on %s', async (kind) => {
    const dataFolder = await mkdtemp(join(tmpdir(), 'crossarm-work-'))
    const fresh = await freshDatabase(kind)
    const { databaseUrl } = fresh
    const place = { dataFolder, ...(databaseUrl && { databaseUrl }) }
    const store = await openStore(place)
    const threads = openThreads(workerFile, 1)
    const clock = () => new Date().toISOString()
    const kinds = workKinds({ store, threads, clock })
    const options = { store: store.work, kinds, clock, reportFault: console.error, slots: 0 }
    const server = await openWork({ ...options, ...(databaseUrl && { databaseUrl }) })
    const program = spawn(process.execPath, ['dist/server/cli.js', 'work', '--data', dataFolder], {
      cwd: PROJECT_FOLDER,
      env: { ...process.env, DATABASE_URL: databaseUrl ?? '' },
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    try {
      await store.feeders.add(smallFeeder(), 'added', STAMP)
      const payload = SiteRequest.parse({})
      const order = { kind: 'siting', feederId: 'small', feederVersion: 1, payload } as const
      const { id } = await server.submit({ id: randomUUID(), ...order }, STAMP)
      const [line] = await once(createInterface({ input: program.stdout }), 'line')
      expect(line).toContain('takes long work')
      expect((await until(server, id, hasEnded)).state).toBe('done')
      const ended = once(program, 'exit')
      program.kill('SIGTERM')
      expect(await ended).toEqual([0, null])
    } finally {
      program.kill('SIGKILL')
      await server.stop()
      await threads.close()
      await store.close()
      await fresh.drop()
      await rm(dataFolder, { recursive: true, force: true })
    }
  })
})
