import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'

/** Connections that have not ended by then after a stop are cut. */
const STOP_GRACE_MS = 5000

/** A connection whose answer is out is kept open for a next request; after a stop there is none. */
const IDLE_SWEEP_MS = 50

/**
 * Listens and gives the address as http://127.0.0.1:8080.
 *
 * @param port 0 takes any free one
 * @throws Error saying what to do where the port cannot be had
 */
export function listen(server: Server, host: string, port: number): Promise<string> {
  return new Promise((resolve, reject) => {
    server.once('error', (error: NodeJS.ErrnoException) => reject(listenError(error, host, port)))
    server.listen(port, host, () => resolve(addressOf(server.address() as AddressInfo)))
  })
}

function addressOf({ address, family, port }: AddressInfo): string {
  return `http://${family === 'IPv6' ? `[${address}]` : address}:${port}`
}

function listenError(error: NodeJS.ErrnoException, host: string, port: number): Error {
  const words: Record<string, string> = {
    EADDRINUSE: 'it is taken. Stop the program that has it, or set PORT to another',
    EACCES: 'the system does not allow it. Set PORT to one above 1023',
    EADDRNOTAVAIL: 'this machine has no such address. Set HOST to one that it has',
  }
  const reason = words[error.code ?? ''] ?? error.message
  return new Error(`Cannot listen on ${host} port ${port}: ${reason}.`, { cause: error })
}

/** Takes no new connection and waits for answers under way; after a while it cuts them. */
export async function stopListening(server: Server): Promise<void> {
  const closed = new Promise<void>((resolve) => server.close(() => resolve()))
  const sweep = setInterval(() => server.closeIdleConnections(), IDLE_SWEEP_MS)
  const force = setTimeout(() => server.closeAllConnections(), STOP_GRACE_MS)
  await closed
  clearInterval(sweep)
  clearTimeout(force)
}
