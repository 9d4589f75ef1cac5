import type { CallMessage, ReplyMessage } from './messages.ts'
import { solverFunctions } from './solver-functions.ts'

const functions: Readonly<Record<string, (...args: never[]) => unknown>> = solverFunctions

function reply({ id, name, args }: CallMessage): ReplyMessage {
  try {
    const called = functions[name]
    if (!called) throw new Error(`Expected a function of the solver, got "${name}".`)
    return { id, value: called(...(args as never[])) }
  } catch (error) {
    return { id, fault: error instanceof Error ? error.message : String(error) }
  }
}

self.addEventListener('message', ({ data }: MessageEvent<CallMessage>) => {
  self.postMessage(reply(data))
})
