import { connect, type Socket } from 'node:net'

export interface RawConnection {
  send(text: string): void
  /** All that came until the other side closed. */
  readonly closed: Promise<string>
  readonly socket: Socket
}

/** A connection on which a test writes HTTP by hand, as far as it wants to. */
export async function openRaw(address: string): Promise<RawConnection> {
  const { hostname, port } = new URL(address)
  const socket = connect(Number(port), hostname)
  await new Promise<void>((resolve, reject) => {
    socket.once('connect', resolve).once('error', reject)
  })
  let came = ''
  socket.setEncoding('utf8').on('data', (text: string) => {
    came += text
  })
  const closed = new Promise<string>((resolve) => {
    socket.on('error', () => socket.destroy()).once('close', () => resolve(came))
  })
  return { send: (text) => socket.write(text), closed, socket }
}

/** Head of a request with its headers, without the blank line that ends them. */
export function requestHead(
  method: string,
  path: string,
  address: string,
  headers: Readonly<Record<string, string>> = {},
): string {
  const lines = Object.entries({ host: new URL(address).host, ...headers })
  return `${method} ${path} HTTP/1.1\r\n${lines.map(([name, value]) => `${name}: ${value}\r\n`).join('')}`
}
