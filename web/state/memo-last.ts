/**
 * Keeps the last answer of a pure function, told by its arguments being the same objects: for what
 * several screens ask about the same record.
 */
export function memoLast<Args extends readonly unknown[], Value>(
  compute: (...args: Args) => Value,
): (...args: Args) => Value {
  let last: { readonly args: Args; readonly value: Value } | null = null
  return (...args) => {
    const before = last
    if (before && args.every((arg, index) => Object.is(arg, before.args[index]))) {
      return before.value
    }
    const value = compute(...args)
    last = { args, value }
    return value
  }
}
