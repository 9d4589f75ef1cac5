import type { Send } from './ask-server.ts'
import { NoAnswerError } from './no-answer.ts'

/**
 * Sends a request and tells how much of it has left, from 0 to 1; `fetch` does not say.
 *
 * @throws NoAnswerError where no answer came
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
      request.onerror = () => reject(new NoAnswerError())
      request.onabort = () => reject(signal?.reason ?? new Error('Stopped.'))
      signal?.addEventListener('abort', () => request.abort(), { once: true })
      request.send(body)
    })
}

/** Headers that the pages read: what the answer is, whose it is, and when. */
const READ_HEADERS = ['content-type', 'x-request-id', 'date']

function responseOf(request: XMLHttpRequest): Response {
  const headers = READ_HEADERS.flatMap((name) => {
    const value = request.getResponseHeader(name)
    return value === null ? [] : [[name, value] as [string, string]]
  })
  const { response, status } = request
  return new Response(response as Blob, { status, headers })
}
