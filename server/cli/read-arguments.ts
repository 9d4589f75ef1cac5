import { type ParseArgsConfig, parseArgs } from 'node:util'
import { UsageError } from './command.ts'

type Options = NonNullable<ParseArgsConfig['options']>

export interface Arguments<Wanted extends Options> {
  readonly values: ReturnType<typeof parseArgs<{ options: Wanted }>>['values']
  readonly folder: string
}

/** Options and the one feeder folder of a command. Throws `UsageError`. */
export function readArguments<Wanted extends Options>(
  args: readonly string[],
  options: Wanted,
): Arguments<Wanted> {
  const { values, positionals } = parsed(args, options, true)
  const [folder, extra] = positionals
  if (folder === undefined) throw new UsageError('Name a feeder folder.')
  if (extra !== undefined) throw new UsageError(`Name one feeder folder only, not "${extra}" too.`)
  return { values, folder }
}

/** Options of a command that takes no folder. Throws `UsageError`. */
export function readOptions<Wanted extends Options>(
  args: readonly string[],
  options: Wanted,
): Arguments<Wanted>['values'] {
  return parsed(args, options, false).values
}

/** Options and words of a command that takes both. Throws `UsageError`. */
export function readParts<Wanted extends Options>(
  args: readonly string[],
  options: Wanted,
): ReturnType<typeof parseArgs<{ options: Wanted; allowPositionals: true }>> {
  return parsed(args, options, true)
}

function parsed<Wanted extends Options>(
  args: readonly string[],
  options: Wanted,
  allowPositionals: boolean,
) {
  try {
    return parseArgs({ args: [...args], options, allowPositionals, strict: true })
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error)
    throw new UsageError(message.split('. ')[0]?.replace(/\.?$/, '.') ?? message)
  }
}

/** One of the allowed words. Throws `UsageError` naming them. */
export function oneOf<Word extends string>(
  option: string,
  value: string | undefined,
  words: readonly [Word, ...Word[]],
): Word {
  if (value === undefined) return words[0]
  const found = words.find((word) => word === value)
  if (found === undefined) {
    throw new UsageError(`--${option} takes ${words.join(' or ')}, not "${value}".`)
  }
  return found
}

/** Volts on the 120 base. Throws `UsageError` for what is not a number from 0 to 240. */
export function voltsOf(option: string, value: string | undefined): number | undefined {
  if (value === undefined) return undefined
  const volts = value.trim() === '' ? Number.NaN : Number(value)
  if (!(volts >= 0 && volts <= 240)) {
    throw new UsageError(`--${option} takes volts on the 120 base, as 118, not "${value}".`)
  }
  return volts
}
