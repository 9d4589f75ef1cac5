/** Where a record lies: attached files in a folder, the tables in a file there or on a server. */
export interface Place {
  readonly dataFolder: string
  /** A PostgreSQL database in place of the file. */
  readonly databaseUrl?: string
}

export const DATABASE_FILE = 'crossarm.sqlite'
