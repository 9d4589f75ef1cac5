import { resolve } from 'node:path'
import { counted, tablesInWords, tellMissing } from './archive-words.ts'
import type { Command } from './command.ts'
import { ProgressLine } from './progress-line.ts'
import { readOptions } from './read-arguments.ts'

const HELP = `Usage: crossarm backup [--to <file or folder>] [--data <folder>]

Writes the whole record with its attached files into one archive, as it is at this moment; a server
may go on running and being written to meanwhile. The archive is there whole or not at all.

It is a gzip-compressed tar with a manifest of hashes. Sessions are left out, password hashes are
in it: only its owner may read it, and it is to be guarded like the server itself.

  --to <file or folder>  where to write; without it CROSSARM_BACKUPS, or backups in the data folder.
                         In a folder it is named after the moment.
  --data <folder>        folder of the database; without it CROSSARM_DATA, or data.
                         The database is the one of DATABASE_URL where that is set.

Exit code: 0 written; 1 it could not be written, or attached files are missing; 2 bad usage.`

export const backupCommand: Command = {
  name: 'backup',
  summary: 'write the whole record into one archive, while the server runs',
  help: HELP,
  async run(args, streams, tools) {
    const { to, data } = readOptions(args, { to: { type: 'string' }, data: { type: 'string' } })
    const env = { ...process.env, ...(data !== undefined && { CROSSARM_DATA: resolve(data) }) }
    const progress = new ProgressLine(streams)
    const report = await tools
      .backUp(env, to, (done, total, phase) => progress.show(done, total, phase))
      .finally(() => progress.clear())
    const files = counted(report.attachments ?? 0, 'attached file')
    streams.out(`${tablesInWords(report.tables)}, ${files}: ${report.sizeBytes} bytes`)
    streams.out(`Written: ${report.file}`)
    tellMissing(report.missing, streams)
    return report.missing.length > 0 ? 1 : 0
  },
}
