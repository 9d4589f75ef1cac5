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

/** What a check of the whole record found: beside the chain, in words, each what is wrong. */
export interface RecordReport {
  readonly chain: ChainReport
  readonly database: readonly string[]
  /** Rows held against the history. */
  readonly rows: readonly string[]
  readonly files: readonly string[]
  readonly wholeFiles: number
  /** Files that no attachment refers to: nothing is lost by them, but they should not be there. */
  readonly leftFiles: readonly string[]
}
