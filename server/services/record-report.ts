/** Where a chain ends: whoever notes this down can see later whether anything up to it changed. */
export interface ChainHead {
  readonly seq: number
  readonly hash: string
}

export interface ChainFault {
  /** Of the first entry that is not as it was written. */
  readonly seq: number
  readonly what: string
}

export interface ChainReport {
  readonly entries: number
  readonly head: ChainHead | null
  /** Null where the chain is unbroken. */
  readonly fault: ChainFault | null
  /** Where the known head stands in the chain; null where it does not, or none was asked for. */
  readonly knownHeadSeq: number | null
}

/** What a check of the whole record found. All members but `chain` say in words what is wrong. */
export interface RecordReport {
  readonly chain: ChainReport
  readonly database: readonly string[]
  /** Rows held against the history. */
  readonly rows: readonly string[]
}
