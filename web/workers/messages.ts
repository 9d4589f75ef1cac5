export interface CallMessage {
  readonly id: number
  readonly name: string
  readonly args: readonly unknown[]
}

export type ReplyMessage =
  | { readonly id: number; readonly value: unknown }
  | { readonly id: number; readonly fault: string }
