import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { temporaryStore } from './temporary-store.ts'

const PROGRAM = fileURLToPath(new URL('keep-writing.ts', import.meta.url))
const KILL_AFTER_WRITES = 40

const temporary = temporaryStore()

it('loses no write that it answered when it is killed in the middle of the next', async () => {
  await temporary.store.close()
  const child = spawn(process.execPath, ['--import', 'tsx', PROGRAM, temporary.folder], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const ended = once(child, 'exit')
  const answered: string[] = []
  for await (const line of createInterface({ input: child.stdout })) {
    answered.push(line)
    if (answered.length === KILL_AFTER_WRITES) child.kill('SIGKILL')
  }
  const [, signal] = await ended
  expect(signal).toBe('SIGKILL')
  const store = await temporary.reopen()
  const kept = (await store.protections.list('small')).map(({ id }) => id)
  expect(kept).toEqual(expect.arrayContaining(answered))
  const lastId = answered.at(-1) ?? ''
  expect(await store.history.of('protection', lastId, 'small')).toHaveLength(1)
})
