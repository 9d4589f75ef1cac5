import { EAGLE_GUIDANCE } from '#domain/avian/eagle-guidance.ts'
import type { PairSeparation, PoleSeparation } from '#domain/avian/separation.ts'
import { gapBothUnits, pairInWords, shortfallInWords } from '#domain/avian/separation-words.ts'
import { showWorking } from '../state/working.ts'
import { Button } from '../ui/button.tsx'
import { separationWorking } from './separation-working.ts'
import { VerdictMark } from './verdict-mark.tsx'

/** A pole's recorded separations against guidance, with where the guidance comes from. */
export function SeparationTable({ separation }: { readonly separation: PoleSeparation }) {
  return (
    <section className="stack" aria-label="Separations against guidance">
      <h3>Separations against guidance</h3>
      <table className="separation-table">
        <thead>
          <tr>
            <th scope="col">Pair</th>
            <th scope="col">Horizontal</th>
            <th scope="col">Vertical</th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <th scope="row">Guidance for eagles</th>
            <td>{gapBothUnits(EAGLE_GUIDANCE.horizontalM)}</td>
            <td>or {gapBothUnits(EAGLE_GUIDANCE.verticalM)}</td>
          </tr>
          {separation.pairs.map((pair) => (
            <tr key={pair.pair}>
              <th scope="row">
                <VerdictMark verdict={pair.verdict} /> {pair.pair}
              </th>
              <td>{gapOf(pair, pair.horizontalM)}</td>
              <td>{gapOf(pair, pair.verticalM)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <ul className="separation-words">
        {separation.pairs.map((pair) => (
          <li key={pair.pair}>{shortfallInWords(pair) ?? pairInWords(pair)}</li>
        ))}
      </ul>
      <p className="soft small">
        Guidance: {EAGLE_GUIDANCE.citation}. How sure: {EAGLE_GUIDANCE.sureness}.{' '}
        {EAGLE_GUIDANCE.note}
      </p>
      <div>
        <Button look="plain" onClick={() => showWorking(separationWorking(separation))}>
          Show the working
        </Button>
      </div>
    </section>
  )
}

function gapOf(pair: PairSeparation, lengthM: number | null): string {
  if (lengthM !== null) return gapBothUnits(lengthM)
  return pair.verdict === 'absent' ? 'no such pair' : 'not recorded'
}
