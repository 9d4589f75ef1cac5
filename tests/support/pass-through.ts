import { createServer, request } from 'node:http'
import type { AddressInfo } from 'node:net'

export interface PassThrough {
  /** Address without a slash at the end. */
  readonly url: string
  /** Text that is put behind the file at this address from now on. */
  readonly append: (path: string, text: string) => void
  readonly stop: () => Promise<void>
}

/** Stands before a running server and hands on what is asked, as a proxy does. */
export async function passThrough(target: string): Promise<PassThrough> {
  const appended = new Map<string, string>()
  const server = createServer((asked, answer) => {
    const more = appended.get((asked.url ?? '').split('?')[0] ?? '')
    const { 'accept-encoding': encoding, ...headers } = asked.headers
    const sent = request(
      target + asked.url,
      {
        method: asked.method,
        headers: { ...headers, ...(!more && encoding && { 'accept-encoding': encoding }) },
      },
      (got) => {
        const { 'content-length': _, etag: __, ...rest } = got.headers
        answer.writeHead(got.statusCode ?? 502, more ? rest : got.headers)
        got.pipe(answer, { end: more === undefined })
        if (more !== undefined) got.on('end', () => answer.end(more))
      },
    )
    sent.on('error', () => answer.writeHead(502).end())
    answer.on('close', () => sent.destroy())
    asked.pipe(sent)
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  return {
    url: `http://127.0.0.1:${port}`,
    append: (path, text) => appended.set(path, text),
    stop: async () => {
      server.closeAllConnections()
      await new Promise((resolve) => server.close(resolve))
    },
  }
}
