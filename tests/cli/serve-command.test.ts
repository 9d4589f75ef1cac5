import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtemp, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { buildCli, PROJECT_FOLDER } from './run-cli.ts'

beforeAll(buildCli, 120_000)

describe('serve', () => {
  it('prints the address, answers there, and stops on an interrupt', async () => {
    const data = await mkdtemp(join(tmpdir(), 'crossarm-serve-'))
    const child = spawn(
      process.execPath,
      ['dist/server/cli.js', 'serve', '--host', '127.0.0.1', '--port', '0', '--data', data],
      { cwd: PROJECT_FOLDER, stdio: ['ignore', 'pipe', 'inherit'] },
    )
    try {
      const [address] = await Promise.race([firstAddress(child.stdout), exitedEarly(child)])
      const health = await fetch(`${address}/api/ready`)
      expect(health.status).toBe(200)
      child.kill('SIGINT')
      const [code] = await once(child, 'exit')
      expect(code).toBe(0)
    } finally {
      child.kill('SIGKILL')
      await rm(data, { recursive: true, force: true })
    }
  })
})

async function firstAddress(stream: NodeJS.ReadableStream): Promise<string[]> {
  let printed = ''
  for await (const text of stream) {
    printed += String(text)
    const found = printed.match(/http:\/\/127\.0\.0\.1:\d+/)
    if (found) return [found[0]]
  }
  throw new Error(`The server printed no address:\n${printed}`)
}

async function exitedEarly(child: ReturnType<typeof spawn>): Promise<string[]> {
  const [code] = await once(child, 'exit')
  throw new Error(`The server ended with ${code} before it answered.`)
}
