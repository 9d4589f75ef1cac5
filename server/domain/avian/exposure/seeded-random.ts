/**
 * Even numbers from 0 up to but not with 1, the same for the same seed: a counter run through the
 * 32-bit finalizer of MurmurHash3 (Austin Appleby, public domain).
 */
export function seededRandom(seed: number): () => number {
  let counter = seed >>> 0
  return () => {
    counter = (counter + 0x9e3779b9) >>> 0
    let mixed = counter
    mixed = Math.imul(mixed ^ (mixed >>> 16), 0x85ebca6b)
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35)
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 0x1_0000_0000
  }
}
