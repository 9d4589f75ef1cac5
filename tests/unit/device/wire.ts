import { vi } from 'vitest'

/** What happens to a request on its way. */
export type Weather =
  | 'clear'
  /** Nothing gets through. */
  | 'no signal'
  /** The server gets it, but its answer is lost. */
  | 'answers lost'
  /** Something else answers in place of the server, as the sign-in page of a network does. */
  | 'somebody else answers'
  /** A proxy says that the server behind it is gone. */
  | 'bad gateway'
  /** Neither answer nor refusal, until `let go`. */
  | 'silence'

export interface Wire {
  weather: Weather
  /** Who is signed in. */
  cookie: string
  /** Method and address of what left the device, in order. */
  readonly sent: string[]
  /** Called with each request before it leaves. */
  onSend: (line: string, body: unknown) => void
  /** Ends the silence: the requests that wait get through. */
  readonly letGo: () => void
}

/** The wire between pages under test and a running server, in place of the browser's `fetch`. */
export function wireTo(address: string, cookie: string): Wire {
  let goOn: (() => void)[] = []
  const wire: Wire = {
    weather: 'clear',
    cookie,
    sent: [],
    onSend: () => undefined,
    letGo: () => {
      wire.weather = 'clear'
      for (const go of goOn) go()
      goOn = []
    },
  }
  const real = globalThis.fetch
  vi.stubGlobal('fetch', async (path: string, options: RequestInit = {}) => {
    // What a test itself asks of the server goes another way.
    if (!path.startsWith('/')) return real(path, options)
    const line = `${options.method ?? 'GET'} ${path}`
    wire.sent.push(line)
    wire.onSend(line, options.body)
    if (wire.weather === 'silence') await silence(options.signal)
    if (wire.weather === 'no signal') throw new TypeError('fetch failed')
    if (wire.weather === 'bad gateway') return html(502)
    if (wire.weather === 'somebody else answers') return html(200)
    const headers = { ...(options.headers as Record<string, string>), cookie: wire.cookie }
    const answer = await real(address + path, { ...options, headers })
    if (wire.weather === 'answers lost') throw new TypeError('fetch failed')
    return answer
  })
  const silence = (signal: AbortSignal | null | undefined) =>
    new Promise<void>((resolve, reject) => {
      goOn.push(resolve)
      signal?.addEventListener('abort', () => reject(signal.reason), { once: true })
    })
  return wire
}

function html(status: number): Response {
  return new Response('<p>Sign in to this network.</p>', {
    status,
    headers: { 'content-type': 'text/html' },
  })
}
