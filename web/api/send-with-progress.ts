import type { Send } from './call.ts'

/**
 * Sends a request and tells how much of it has left, from 0 to 1; `fetch` does not say.
 *
 * @throws Error in plain words where no answer came
 */
export function sendWithProgress(onSent: (share: number) => void): Send {
  return ({ method, path, headers, body }, signal) =>
    new Promise((resolve, reject) => {
      const request = new XMLHttpRequest()
      request.open(method, path)
      for (const [name, value] of Object.entries(headers)) request.setRequestHeader(name, value)
      request.responseType = 'blob'
      request.upload.onprogress = ({ loaded, total }) => onSent(total > 0 ? loaded / total : 0)
      request.onload = () => resolve(responseOf(request))
      request.onerror = () =>
        reject(new Error('The server does not answer. Check the connection and try again.'))
      request.onabort = () => reject(signal?.reason ?? new Error('Stopped.'))
      signal?.addEventListener('abort', () => request.abort(), { once: true })
      request.send(body)
    })
}

function responseOf(request: XMLHttpRequest): Response {
  const type = request.getResponseHeader('content-type') ?? ''
  const { response, status } = request
  return new Response(response as Blob, { status, headers: { 'content-type': type } })
}
