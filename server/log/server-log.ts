import { type DestinationStream, pino } from 'pino'
import { faultFields } from './fault-fields.ts'
import { plainLines } from './plain-lines.ts'
import { scrub } from './scrub.ts'
import { secretsOf } from './secrets-of.ts'

export const LOG_LEVELS = ['error', 'warn', 'info', 'debug', 'silent'] as const
export type LogLevel = (typeof LOG_LEVELS)[number]

/** Plain values alone, so that no body or person gets in by being handed over whole. */
export type LogFields = Readonly<Record<string, string | number | boolean>>

/** Structured log of one server or worker. It names no person and holds no secret. */
export interface ServerLog {
  info(words: string, fields?: LogFields): void
  warn(words: string, fields?: LogFields): void
  /** Something that broke, with its stack; a text is only a warning. */
  fault(fault: unknown, fields?: LogFields): void
}

export interface LogOptions {
  readonly level: LogLevel
  /** For a person at a terminal; otherwise one JSON object a line. */
  readonly isPlain: boolean
  /** Texts that are never written. */
  readonly secrets: readonly string[]
  readonly destination?: DestinationStream
}

export function openLog({ level, isPlain, secrets, destination }: LogOptions): ServerLog {
  const stream = destination ?? pino.destination({ fd: 1, sync: true })
  const target = isPlain ? plainLines((text) => stream.write(text)) : stream
  const log = pino(
    {
      level,
      base: null,
      timestamp: pino.stdTimeFunctions.isoTime,
      formatters: { level: (label) => ({ level: label }) },
    },
    target,
  )
  const clean = (fields: LogFields = {}) =>
    Object.fromEntries(
      Object.entries(fields).map(([name, value]) => [
        name,
        typeof value === 'string' ? scrub(value, secrets) : value,
      ]),
    )
  return {
    info: (words, fields) => log.info(clean(fields), scrub(words, secrets)),
    warn: (words, fields) => log.warn(clean(fields), scrub(words, secrets)),
    fault: (fault, fields) => {
      if (typeof fault === 'string') log.warn(clean(fields), scrub(fault, secrets))
      else {
        const { message } = faultFields(fault, secrets)
        log.error({ ...clean(fields), fault: faultFields(fault, secrets) }, message)
      }
    },
  }
}

/**
 * The log as the environment asks for it: CROSSARM_LOG gives the level.
 *
 * @throws Error naming the variable that cannot be used
 */
export function logOf(env: NodeJS.ProcessEnv, isTerminal: boolean): ServerLog {
  const level = env.CROSSARM_LOG || 'info'
  if (!isLogLevel(level)) {
    throw new Error(`CROSSARM_LOG must be one of ${LOG_LEVELS.join(', ')}, got "${level}".`)
  }
  return openLog({ level, isPlain: isTerminal, secrets: secretsOf(env) })
}

function isLogLevel(text: string): text is LogLevel {
  return LOG_LEVELS.some((level) => level === text)
}
