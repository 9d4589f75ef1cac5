const LATER = 'Nothing was changed; try again in a moment.'

/** Result codes of SQLite (sqlite.org/rescode.html); an extended code begins with the plain one. */
const OF_SQLITE: readonly (readonly [string, string])[] = [
  ['SQLITE_BUSY', `Another program has the database file to itself. ${LATER}`],
  ['SQLITE_LOCKED', `The database is taken by another change. ${LATER}`],
  ['SQLITE_FULL', 'The disk of the database is full. Nothing was changed. Make room on it.'],
  [
    'SQLITE_READONLY',
    'The database can be read but not written. Nothing was changed. Give the server the right to write its data folder.',
  ],
  [
    'SQLITE_IOERR',
    'The disk of the database gives errors. Nothing was changed. Look at the disk and its room.',
  ],
  [
    'SQLITE_CANTOPEN',
    'The database file cannot be opened. Look whether the data folder is there and can be written.',
  ],
]

/** SQLSTATE codes and classes (PostgreSQL manual, appendix A) and codes of a broken connection. */
const OF_POSTGRES: readonly (readonly [RegExp, string])[] = [
  [
    /^(08|57P0[1235]|ECONNREFUSED$|ECONNRESET$|EPIPE$|ETIMEDOUT$|EHOSTUNREACH$|ENOTFOUND$|EAI_AGAIN$)/,
    `The database server cannot be reached. ${LATER}`,
  ],
  [/^53300$/, `The database server has too many connections. ${LATER}`],
  [/^(53100|58030)$/, 'The disk of the database server is full or failing. Nothing was changed.'],
  [/^53/, `The database server is short of what it needs. ${LATER}`],
  [/^(55P03|40001|40P01|57014|25P03)$/, `Other changes held up this one for too long. ${LATER}`],
  [/^25006$/, 'The database server takes no changes at present. Nothing was changed.'],
]

const READ_ONLY =
  'The data folder can be read but not written. Nothing was changed. Give the server the right to write it.'

/** Codes of the file system, for what is written beside the database. */
const OF_FILES: Readonly<Record<string, string>> = {
  ENOSPC: 'The disk of the data folder is full. Nothing was changed. Make room on it.',
  EDQUOT: 'The room allowed for the data folder is used up. Nothing was changed. Make room in it.',
  EFBIG: 'A file of the data folder has reached the size that the system allows it.',
  EROFS: READ_ONLY,
  EACCES: READ_ONLY,
  EPERM: READ_ONLY,
  EIO: 'The disk of the data folder gives errors. Nothing was changed.',
}

/** The driver has no code for these. */
const BROKEN_CONNECTION =
  /^(Connection terminated|timeout exceeded when trying to connect|Client has encountered a connection error|Client was closed)/

/**
 * Why the database cannot serve for the time being, in words for who asked; null where the error is
 * none of that kind, and so a fault of the program.
 */
export function whyUnavailable(error: unknown): string | null {
  if (!(error instanceof Error)) return null
  const code = 'code' in error && typeof error.code === 'string' ? error.code : ''
  return (
    OF_SQLITE.find(([start]) => code.startsWith(start))?.[1] ??
    OF_FILES[code] ??
    OF_POSTGRES.find(([pattern]) => pattern.test(code))?.[1] ??
    (BROKEN_CONNECTION.test(error.message) ? OF_POSTGRES[0]?.[1] : null) ??
    whyUnavailable(error.cause)
  )
}
