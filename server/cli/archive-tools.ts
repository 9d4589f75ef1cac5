export type OnProgress = (done: number, total: number, phase: string) => void

export interface BackupReport {
  readonly file: string
  readonly sizeBytes: number
  readonly tables: readonly { readonly rows: number }[]
  /** Null where they were left out. */
  readonly attachments: number | null
  /** Hashes of attached files that the record names and nobody has. */
  readonly missing: readonly string[]
}

export interface RestoreReport {
  readonly tables: readonly { readonly rows: number }[]
  readonly attachments: number | null
  readonly takenAt: string
  /** Of the program that wrote the archive. */
  readonly version: string
}

export interface MoveReport {
  readonly tables: readonly { readonly name: string; readonly rows: number }[]
  readonly movedBefore: number
  readonly attachments: number
  readonly missing: readonly string[]
}

/** What keeps a record, brings it back and moves it. The environment names its place. */
export interface ArchiveTools {
  /** @param to file or folder; the folder of backups when left out */
  readonly backUp: (
    env: NodeJS.ProcessEnv,
    to: string | undefined,
    onProgress: OnProgress,
  ) => Promise<BackupReport>
  /** @param to folder, or address of a PostgreSQL database; the place of the environment when left out */
  readonly restore: (
    env: NodeJS.ProcessEnv,
    file: string,
    to: string | undefined,
    onProgress: OnProgress,
  ) => Promise<RestoreReport>
  readonly move: (
    env: NodeJS.ProcessEnv,
    url: string,
    filesTo: string | undefined,
    onProgress: OnProgress,
  ) => Promise<MoveReport>
}
