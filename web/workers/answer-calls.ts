import type { CallMessage, Progress, ReplyMessage } from './messages.ts'

/** Tells whoever called how far the call is. */
export type TellProgress = (progress: Progress) => void

/** Functions by name; each is given, last, how it tells its progress. */
export type Functions = Readonly<Record<string, (...args: never[]) => unknown>>

/** The worker's side: answers each call with a value or with what went wrong. */
export function answerCalls(functions: Functions): void {
  const post = (reply: ReplyMessage) => self.postMessage(reply)
  self.addEventListener('message', ({ data }: MessageEvent<CallMessage>) => {
    const { id, name, args } = data
    try {
      const called = functions[name]
      if (!called) throw new Error(`Expected a function of this worker, got "${name}".`)
      const tell: TellProgress = (progress) => post({ id, progress })
      post({ id, value: called(...([...args, tell] as never[])) })
    } catch (error) {
      post({ id, fault: error instanceof Error ? error.message : String(error) })
    }
  })
}
