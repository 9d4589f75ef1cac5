import type { FeederTools } from './feeder-tools.ts'

/** 0 fine, 1 findings or no convergence, 2 bad usage or unreadable input. */
export type ExitCode = 0 | 1 | 2

/** Where a command writes: answers on `out`, everything about them on `err`. */
export interface Streams {
  readonly out: (text: string) => void
  readonly err: (text: string) => void
  /** Draws over the last line of `err`; only for a terminal. */
  readonly redraw: (text: string) => void
  /** True where `err` is a terminal. */
  readonly isErrTerminal: boolean
}

export interface Command {
  readonly name: string
  /** One line for the list of commands. */
  readonly summary: string
  /** The whole page that --help prints. */
  readonly help: string
  /** Throws `UsageError` for arguments that it cannot use. */
  readonly run: (args: readonly string[], streams: Streams, tools: FeederTools) => Promise<ExitCode>
}

/** Arguments that make no sense; the message says what to write instead. */
export class UsageError extends Error {}
