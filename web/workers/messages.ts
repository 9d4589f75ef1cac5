/** How far a call is: "Assessing poles", 50 of 312. */
export interface Progress {
  readonly what: string
  readonly done: number
  readonly of: number
}

export interface CallMessage {
  readonly id: number
  readonly name: string
  readonly args: readonly unknown[]
}

export type ReplyMessage =
  | { readonly id: number; readonly value: unknown }
  | { readonly id: number; readonly fault: string }
  | { readonly id: number; readonly progress: Progress }
