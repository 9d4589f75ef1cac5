import type { ContactPair } from '#domain/avian/pole-top/contact-pair.ts'

/** The two parts of a pair, told apart also where a label has a "to" in it. */
export function PairParts({ pair: { partA, partB } }: { readonly pair: ContactPair }) {
  return (
    <>
      {partA.label}
      <span aria-hidden="true"> ↔ </span>
      <span className="visually-hidden"> to </span>
      {partB.label}
    </>
  )
}
