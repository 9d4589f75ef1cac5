import { backupCommand } from './backup-command.ts'
import { birdsCommand } from './birds-command.ts'
import { checkCommand } from './check-command.ts'
import { type Command, type ExitCode, type Streams, UsageError } from './command.ts'
import type { FeederTools } from './feeder-tools.ts'
import { jobsCommand } from './jobs-command.ts'
import { moveCommand } from './move-command.ts'
import { peopleCommand } from './people-command.ts'
import { programmeCommand } from './programme-command.ts'
import { restoreCommand } from './restore-command.ts'
import { serveCommand } from './serve-command.ts'
import { siteCommand } from './site-command.ts'
import { verifyCommand } from './verify-command.ts'
import { voltageCommand } from './voltage-command.ts'
import { waypointsCommand } from './waypoints-command.ts'
import { workCommand } from './work-command.ts'

const COMMANDS: readonly Command[] = [
  voltageCommand,
  siteCommand,
  birdsCommand,
  programmeCommand,
  jobsCommand,
  waypointsCommand,
  checkCommand,
  serveCommand,
  workCommand,
  peopleCommand,
  verifyCommand,
  backupCommand,
  restoreCommand,
  moveCommand,
]

const HELP = [
  'Usage: crossarm <command> …',
  '',
  'Voltage, regulator siting and bird protection on distribution feeders. Volts are on the 120 V base.',
  '',
  ...COMMANDS.map(({ name, summary }) => `  ${name.padEnd(9)} ${summary}`),
  '',
  'crossarm <command> --help says how each is used.',
].join('\n')

/** Finds and runs the command that `args` name. */
export async function runCommand(
  args: readonly string[],
  streams: Streams,
  tools: FeederTools,
): Promise<ExitCode> {
  const [name, ...rest] = args
  if (name === '--help' || name === '-h' || name === 'help') {
    streams.out(HELP)
    return 0
  }
  const command = COMMANDS.find((each) => each.name === name)
  if (!command) {
    const what = name === undefined ? 'Name a command' : `There is no command "${name}"`
    streams.err(
      `crossarm: error: ${what}; they are ${COMMANDS.map((each) => each.name).join(', ')}.`,
    )
    return 2
  }
  if (rest.includes('--help') || rest.includes('-h')) {
    streams.out(command.help)
    return 0
  }
  try {
    return await command.run(rest, streams, tools)
  } catch (error) {
    if (!(error instanceof UsageError)) throw error
    streams.err(
      `crossarm ${command.name}: error: ${error.message} See crossarm ${command.name} --help.`,
    )
    return 2
  }
}
