import { createServer } from 'node:net'

/** A port of the loopback address that nobody listens on at the moment. */
export function findFreePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer().once('error', reject)
    server.listen(0, '127.0.0.1', () => {
      const address = server.address()
      if (address === null || typeof address === 'string') throw new Error('No port was given.')
      server.close(() => resolve(address.port))
    })
  })
}
