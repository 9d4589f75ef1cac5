/** A report that is written whole, but found by nobody yet. */
export interface WrittenReport {
  readonly sizeBytes: number
  readonly sha256: string
  /** Puts it where it is found under the id of its work. */
  place(): Promise<void>
  discard(): Promise<void>
}

/** Reports as files; made again where one is gone, so no backup holds them. */
export interface ReportFiles {
  /**
   * Leaves nothing behind where `pieces` rejects.
   *
   * @param keptMs reports that are older are removed
   */
  write(workId: string, pieces: AsyncIterable<string>, keptMs: number): Promise<WrittenReport>
  /** Null where it is not kept any more. */
  open(workId: string): Promise<{ content: ReadableStream<Uint8Array>; sizeBytes: number } | null>
}
